using System.Globalization;

namespace FixtureGen.Design.Block;

/// <summary>Names of features: what it is and its number, counted from 1.</summary>
internal static class Names
{
    public static string Numbered(string what, int number) =>
        what + " " + number.ToString(CultureInfo.InvariantCulture);

    /// <summary>A further one of the same, as in <c>gasket 1.2</c>.</summary>
    public static string Numbered(string what, int number, int further) =>
        Numbered(what, number) + "." + further.ToString(CultureInfo.InvariantCulture);
}
