namespace FixtureGen.Model;

/// <summary>
/// A value that a shop does not know exactly: Least &lt;= Nominal &lt;= Greatest, all in the same unit. A hold is judged at whichever
/// end is worse and never between; Nominal is for information.
/// </summary>
public readonly record struct Interval(double Least, double Nominal, double Greatest)
{
    /// <summary>A value known exactly.</summary>
    public static implicit operator Interval(double exact) => new(exact, exact, exact);

    /// <summary>Least to greatest with the middle as nominal.</summary>
    public static Interval Between(double least, double greatest) =>
        new(least, least + ((greatest - least) / 2), greatest);
}
