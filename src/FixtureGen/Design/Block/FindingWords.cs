using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>How the design's findings write lengths, mm, and places.</summary>
internal static class FindingWords
{
    public static string Mm(double value) => value.ToString("0.##", CultureInfo.InvariantCulture) + " mm";

    public static string Count(int value) => value.ToString(CultureInfo.InvariantCulture);

    public static string Area(double mm2) => (mm2 / 100).ToString("0.#", CultureInfo.InvariantCulture) + " cm2";

    public static string Place(Point2 p) => string.Create(CultureInfo.InvariantCulture, $"X{p.X:0.0} Y{p.Y:0.0}");
}
