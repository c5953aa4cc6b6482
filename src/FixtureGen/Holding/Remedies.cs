using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>What would mend a factor that is too low, with figures that were worked out, not guessed.</summary>
internal static class Remedies
{
    /// <summary>A trim slower than this share of its feed is no remedy.</summary>
    private const double SlowestFeed = 0.25;

    private static readonly (string Name, CordKind Kind, double Value)[] Softer =
    [
        ("a sponge cord of ASTM D1056 grade 3", CordKind.Sponge, 89.6),
        ("a sponge cord of ASTM D1056 grade 2", CordKind.Sponge, 62.1),
        ("a sponge cord of ASTM D1056 grade 1", CordKind.Sponge, 34.5),
    ];

    /// <summary>The hardest cord of the same section that leaves at least half of the vacuum.</summary>
    public static string CordThatSeats(Gasket cord, double cordLength, double gross)
    {
        foreach ((string name, CordKind kind, double kPa) in Softer)
        {
            Gasket other = cord with { Kind = kind, P25MinKPa = kPa, P25MaxKPa = kPa };
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

    public static string ForVacuum(HoldingContext context, HoldingResult result, double limit)
    {
        HoldAnswer answer = result.VacuumOnly;
        List<string> mends = [];
        AddSlower(answer.Factor / limit, mends);
        AddDowncut(context, answer, mends);
        double net = context.GrossForceN - context.CordForceN;
        if (answer.Factor > 0 && net > 0)
        {
            double more = ((limit / answer.Factor * net) - net) / Math.Max(1e-9, context.GrossForceN);
            mends.Add(
                more <= 1
                    ? FormattableString.Invariant($"a zone or a vacuum some {100 * more:0} % larger")
                    : FormattableString.Invariant($"a sealed zone some {1 + more:0.#} times as large")
            );
        }
        if (mends.Count == 0)
        {
            mends.Add("a sealed zone that pulls more than its cord pushes back");
        }
        if (context.CordForceN > 0.4 * context.GrossForceN)
        {
            mends.Add("a softer cord");
        }
        return Sentence(mends);
    }

    public static string ForMagnets(HoldingContext context, HoldingResult result, int magnets, double limit)
    {
        HoldAnswer answer = result.MagnetsStopping;
        List<string> mends = [];
        if (answer.Factor > 0)
        {
            int wanted = (int)Math.Ceiling(magnets * limit / answer.Factor);
            int more = Math.Max(1, wanted - magnets);
            mends.Add(
                more == 1
                    ? "one magnet more"
                    : FormattableString.Invariant($"some {more} magnets more, or stronger ones")
            );
            AddSlower(answer.Factor / limit, mends);
        }
        else
        {
            mends.Add("magnets in the block: there is no pull now");
        }
        AddDowncut(context, answer, mends);
        return Sentence(mends);
    }

    private static void AddSlower(double share, List<string> mends)
    {
        if (share >= SlowestFeed)
        {
            mends.Add(FormattableString.Invariant($"the trim feed at {100 * share:0} % of what it is"));
        }
    }

    private static void AddDowncut(HoldingContext context, HoldAnswer answer, List<string> mends)
    {
        bool lifts = context.Loads.Works.Any(w => w.Force.Axial > 0);
        if (lifts && answer.Governs.StartsWith("force", StringComparison.Ordinal))
        {
            mends.Add("a downcut or straight cutter, which does not lift");
        }
    }

    private static string Sentence(List<string> mends)
    {
        string joined = string.Join("; or ", mends);
        return char.ToUpperInvariant(joined[0]) + joined[1..] + ".";
    }
}
