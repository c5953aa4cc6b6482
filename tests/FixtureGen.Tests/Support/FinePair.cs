using FixtureGen.Holding.Magnets;

namespace FixtureGen.Tests.Support;

/// <summary>The force between two discs aside from each other, integrated over six times the nodes the program takes and more.</summary>
internal static class FinePair
{
    public static (double Pull, double Sideways) OffsetN(Disc lower, Disc upper, double gap, double offset) =>
        MagnetPair.OffsetN(lower, upper, gap, offset, (20, 32));
}
