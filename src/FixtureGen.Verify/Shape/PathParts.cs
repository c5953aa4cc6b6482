using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Stretches of a closed path by arc length from its start, mm; a stretch may run over the start.</summary>
internal static class PathParts
{
    public static IEnumerable<Piece> Between(Contour path, double from, double to)
    {
        double total = path.Segments.Sum(s => s.Length);
        foreach (double turn in (double[])[-total, 0, total])
        {
            double at = turn;
            foreach (Piece piece in path.Segments.Select(Piece.From))
            {
                double t0 = Math.Max(0, (from - at) / piece.Length);
                double t1 = Math.Min(1, (to - at) / piece.Length);
                if (t1 > t0)
                {
                    yield return piece.Part(t0, t1);
                }
                at += piece.Length;
            }
        }
    }
}
