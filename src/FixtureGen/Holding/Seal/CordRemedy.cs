using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>Which cord would let a shell seat, with figures worked out.</summary>
internal static class CordRemedy
{
    private static readonly (string Name, double P25KPa)[] Softer =
    [
        ("a sponge cord of ASTM D1056 grade 3", 89.6),
        ("a sponge cord of ASTM D1056 grade 2", 62.1),
        ("a sponge cord of ASTM D1056 grade 1", 34.5),
    ];

    /// <summary>The hardest cord of the same section that leaves at least half of the vacuum.</summary>
    /// <param name="cordLength">Of all loops, mm.</param>
    /// <param name="gross">Vacuum on the sealed area, N.</param>
    public static string ThatSeats(Gasket cord, double cordLength, double gross)
    {
        foreach ((string name, double kPa) in Softer)
        {
            Gasket other = cord with { Kind = CordKind.Sponge, P25MinKPa = kPa, P25MaxKPa = kPa };
            double push = CordForce.HardestNPerMm(other, 0) * cordLength;
            if (push <= gross / 2)
            {
                return FormattableString.Invariant($"Use {name} of the same section: it pushes back {push:0} N.");
            }
        }
        double share = gross / 2 / Math.Max(1e-9, CordForce.HardestNPerMm(cord, 0) * cordLength);
        return FormattableString.Invariant(
            $"No sponge of this section is soft enough: one that pushes {share:P0} as hard would do, or a thinner cord, or a larger zone."
        );
    }
}
