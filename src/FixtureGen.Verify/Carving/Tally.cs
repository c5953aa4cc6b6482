namespace FixtureGen.Verify.Carving;

/// <summary>
/// What one motion took: Removed mm3, Deepest mm (how far the deepest cell was lowered), DeepMm2 the area lowered by more
/// than the limit it was asked about.
/// </summary>
internal readonly record struct Tally(double Removed, double Deepest, double DeepMm2)
{
    public static Tally operator +(Tally a, Tally b) =>
        new(a.Removed + b.Removed, Math.Max(a.Deepest, b.Deepest), a.DeepMm2 + b.DeepMm2);
}
