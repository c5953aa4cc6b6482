using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// Laws of a worst case, on random shells with pins and random magnets: what makes any one input worse never raises a factor,
/// what narrows any one range never lowers one, and nothing jumps. (JCGM 100:2008 and the corners of a box: where a value goes
/// one way in each input, its least lies at a corner.)
/// </summary>
[Trait("Speed", "Slow")]
public sealed class HoldingRangesTest
{
    /// <summary>Sweep and stops are solved to some tenths of a percent; stays is besides looked for at a part of the steps.</summary>
    private const double Solved = 3e-3;
    private const double Leaned = 2e-2;

    private const double LeastApart = 30;

    private sealed record Case(double Width, double Height, ImmutableArray<Point2> Magnets)
    {
        public Part Part => HeldDesigns.Part(Contours.RoundedRectangle(new Box2(30, 30, 30 + Width, 30 + Height), 14));

        public ImmutableArray<MagnetPlace> Places => [.. Magnets.Select(m => new MagnetPlace(m, false, false))];

        public Job Job =>
            HeldDesigns.Job(
                FormattableString.Invariant(
                    $"[locator]\nby = \"pins\"\npins = [[15, {30 + (Height / 2):0.#}], [{45 + Width:0.#}, {30 + (Height / 2):0.#}]]\n[trim]\npasses = 3\n"
                )
            );
    }

    private static Gen<Case> Cases { get; } =
        Gen.Select(
            Gen.Double[70, 130],
            Gen.Double[60, 110],
            Gen.Int[1, 5],
            Gen.Double[0.25, 0.75].Array[10],
            (w, h, n, at) =>
                new Case(
                    w,
                    h,
                    Apart(
                        Enumerable.Range(0, n).Select(i => new Point2(30 + (w * at[2 * i]), 30 + (h * at[(2 * i) + 1])))
                    )
                )
        );

    /// <summary>Those that stand no nearer to the ones before than any job allows.</summary>
    private static ImmutableArray<Point2> Apart(IEnumerable<Point2> places)
    {
        List<Point2> kept = [];
        foreach (Point2 p in places.Where(p => kept.All(k => k.DistanceTo(p) > LeastApart)))
        {
            kept.Add(p);
        }
        return [.. kept];
    }

    private static Interval Least(Interval i, double times) => i with { Least = Math.Min(i.Nominal, i.Least * times) };

    private static Job Cord(Job j, Func<Gasket, Gasket> change) => j with { Gasket = change(j.Gasket) };

    private static Job Block(Job j, double times) =>
        j with
        {
            BlockMaterial = j.BlockMaterial with { ShellFriction = Least(j.BlockMaterial.ShellFriction, times) },
        };

    private static Job Sheet(Job j, Func<SheetStrength, SheetStrength> change) =>
        j with
        {
            ShellMaterial = j.ShellMaterial with { Sheet = change(j.ShellMaterial.Sheet!) },
        };

    private static Job Mill(Job j, Func<Machine, Machine> change) =>
        j with
        {
            Plate = j.Plate with { Machine = change(j.Plate.Machine) },
        };

    private static readonly (string What, Func<Job, Job> Change)[] Worse =
    [
        ("friction on the block", j => Block(j, 0.85)),
        ("friction on the cord", j => Cord(j, g => g with { FrictionShellOnCord = Least(g.FrictionShellOnCord, 0.8) })),
        ("a stiffer cord", j => Cord(j, g => g with { P25MaxKPa = 1.2 * g.P25MaxKPa })),
        ("a softer cord", j => Cord(j, g => g with { P25MinKPa = 0.7 * g.P25MinKPa })),
        ("a looser section", j => Cord(j, g => g with { SectionTolerance = 1.6 * g.SectionTolerance })),
        ("a looser groove", j => Cord(j, g => g with { GrooveDepthTolerance = 0.12 })),
        ("weaker magnets", j => j with { Magnet = j.Magnet with { BrMinT = 0.93 * j.Magnet.BrMinT } }),
        ("smaller magnets", j => j with { Magnet = j.Magnet with { DiameterTolerance = 0.3 } }),
        ("thicker plating", j => j with { Magnet = j.Magnet with { Plating = 0.08 } }),
        ("a deeper recess", j => j with { Rules = j.Rules with { MagnetRecess = 0.4 } }),
        ("a thicker jacket floor", j => j with { Magnet = j.Magnet with { JacketFloor = 0.8 } }),
        ("a thicker shell", j => j with { Shell = j.Shell with { ThicknessMax = 1.1 * j.Shell.ThicknessMax } }),
        ("a thinner shell", j => j with { Shell = j.Shell with { ThicknessMin = 0.9 * j.Shell.ThicknessMin } }),
        (
            "more cutting force",
            j =>
                j with
                {
                    ShellMaterial = j.ShellMaterial with { SpecificForceMax = 1.2 * j.ShellMaterial.SpecificForceMax },
                }
        ),
        ("a duller edge", j => j with { DullFactor = 1.3 * j.DullFactor }),
        ("a lower alarm", j => j with { Vacuum = j.Vacuum with { AlarmKPa = j.Vacuum.AlarmKPa - 4 } }),
        (
            "a looser switch",
            j => j with { Vacuum = j.Vacuum with { AlarmToleranceKPa = 2 + j.Vacuum.AlarmToleranceKPa } }
        ),
        ("a higher shop", j => j with { Vacuum = j.Vacuum with { AltitudeM = 3000 } }),
        ("a bigger leak", j => j with { Vacuum = j.Vacuum with { LeakHoleMm = 3 } }),
        ("a slower switch", j => Mill(j, m => m with { VacuumReactionSeconds = 1.5 * m.VacuumReactionSeconds })),
        ("a longer feed hold", j => Mill(j, m => m with { FeedHoldDistance = 1.5 * m.FeedHoldDistance })),
        ("a weaker sheet", j => Sheet(j, s => s with { YieldMPa = 0.8 * s.YieldMPa })),
        ("wider locator holes", j => j with { Rules = j.Rules with { LocatorHoleClearance = 0.6 } }),
        (
            "a faster feed",
            j => j with { TrimFeedMmPerMin = 1.15 * (j.TrimFeedMmPerMin ?? TrimFeeds.For(j, j.TrimTool).Feed) }
        ),
    ];

    private static readonly (string What, Func<Job, Job> Change)[] Narrower =
    [
        ("friction on the block", j => Block(j, 1.3)),
        ("friction on the cord", j => Cord(j, g => g with { FrictionShellOnCord = Least(g.FrictionShellOnCord, 1.4) })),
        ("the stiff end of the cord", j => Cord(j, g => g with { P25MaxKPa = 0.9 * g.P25MaxKPa })),
        ("the soft end of the cord", j => Cord(j, g => g with { P25MinKPa = 1.3 * g.P25MinKPa })),
        ("the whole cord", j => Cord(j, g => g with { P25MinKPa = 1.2 * g.P25MinKPa, P25MaxKPa = 0.8 * g.P25MaxKPa })),
        ("the cord's section", j => Cord(j, g => g with { SectionTolerance = 0.3 * g.SectionTolerance })),
        ("the groove", j => Cord(j, g => g with { GrooveDepthTolerance = 0 })),
        ("the magnets' grade", j => j with { Magnet = j.Magnet with { BrMinT = j.Magnet.BrMaxT } }),
        ("the magnets' size", j => j with { Magnet = j.Magnet with { DiameterTolerance = 0 } }),
        ("the shell's thickness", j => j with { Shell = j.Shell with { ThicknessMax = j.Shell.Thickness } }),
        ("the thin end of the shell", j => j with { Shell = j.Shell with { ThicknessMin = j.Shell.Thickness } }),
        ("the switch", j => j with { Vacuum = j.Vacuum with { AlarmToleranceKPa = 0 } }),
        (
            "the cutting force",
            j =>
                j with
                {
                    ShellMaterial = j.ShellMaterial with { SpecificForceMax = 0.8 * j.ShellMaterial.SpecificForceMax },
                }
        ),
    ];

    private static HoldingResult Of(Case c, Job job) =>
        HoldingAnalysis
            .Context(HeldDesigns.Of(c.Part, c.Job, true, [.. c.Magnets]), job, Tolerances.House)
            .Value!.Evaluate(c.Places);

    private static (string Name, double Factor, double Near)[] Factors(HoldingResult r) =>
        [
            ("put on vacuum", r.VacuumOnly.Factor, Solved),
            ("stays on vacuum", r.VacuumOnly.Stays, Leaned),
            ("put on magnets", r.MagnetsOnly.Factor, Solved),
            ("put while stopping", r.MagnetsStopping.Factor, Solved),
            ("stays while stopping", r.MagnetsStopping.Stays, Leaned),
            ("put on both", r.Both.Factor, Solved),
        ];

    /// <summary>The first factor of <paramref name="low"/> that is above its twin of <paramref name="high"/>, said; null where none is.</summary>
    private static string? Above(string what, HoldingResult low, HoldingResult high)
    {
        foreach (((string name, double a, double near), (_, double b, _)) in Factors(low).Zip(Factors(high)))
        {
            if (a > (b * (1 + near)) + 1e-6)
            {
                return FormattableString.Invariant($"{what}: {name} {a} above {b}");
            }
        }
        return null;
    }

    // 44 designs, 37 changes of each, and their own answers: some 1,700 cases.
    [Fact]
    public void Worsening_one_input_never_raises_a_factor_and_narrowing_one_range_never_lowers_one() =>
        Cases.Sample(
            c =>
            {
                Job job = c.Job;
                HoldingResult own = Of(c, job);
                string?[] wrong =
                [
                    .. Worse.Select(w => Above(w.What + " is worse", Of(c, w.Change(job)), own)),
                    .. Narrower.Select(n => Above(n.What + " is narrower", own, Of(c, n.Change(job)))),
                ];
                Assert.All(wrong, Assert.Null);
            },
            iter: LongRun.Cases(15)
        );

    public static TheoryData<string> Demos() => [.. DemoPrograms.Names()];

    // The same on every demo job, as designed: 13 x 37 cases, and its first magnet moved a hundredth four ways.
    [Theory]
    [MemberData(nameof(Demos))]
    public void A_demo_job_keeps_the_same_laws(string name)
    {
        Job job = DemoDesign.Job(name);
        job = job with { TrimPasses = Passes.Count(job.Shell.ThicknessMax, TrimFeeds.For(job, job.TrimTool).StepDown) };
        (FixtureDesign design, HoldingResult own) = DemoDesign.Held(name, job);
        HoldingResult Changed(Job changed) =>
            HoldingAnalysis.Context(design, changed, Tolerances.House).Value!.Evaluate(design.Magnets);
        string?[] wrong =
        [
            .. Worse.Select(w => Above(w.What + " is worse", Changed(w.Change(job)), own)),
            .. Narrower.Select(n => Above(n.What + " is narrower", own, Changed(n.Change(job)))),
        ];
        Assert.All(wrong, Assert.Null);
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        foreach (Point2 step in (Point2[])[new(0.01, 0), new(0, 0.01), new(-0.01, 0), new(0, -0.01)])
        {
            MagnetPlace first = design.Magnets[0];
            HoldingResult moved = context.Evaluate(design.Magnets.SetItem(0, first with { At = first.At + step }));
            foreach (((string what, double a, _), (_, double b, _)) in Factors(own).Zip(Factors(moved)))
            {
                Assert.True(Math.Abs(a - b) <= 0.02 * Math.Max(a, b), FormattableString.Invariant($"{what}: {a}, {b}"));
            }
        }
    }

    // The very numbers that were gained by stepping over an edge: a hundredth of a millimetre, and the pull parked at the push.
    [Fact]
    public void Moving_one_magnet_by_a_hundredth_moves_no_factor_by_more_than_two_percent() =>
        Gen.Select(Cases, Gen.Double[0, 2 * Math.PI])
            .Sample(
                (c, angle) =>
                {
                    Point2 step = new Point2(Math.Cos(angle), Math.Sin(angle)) * 0.01;
                    Case moved = c with { Magnets = c.Magnets.SetItem(0, c.Magnets[0] + step) };
                    foreach (
                        ((string name, double a, _), (_, double b, _)) in Factors(Of(c, c.Job))
                            .Zip(Factors(Of(moved, c.Job)))
                    )
                    {
                        Assert.True(
                            Math.Abs(a - b) <= 0.02 * Math.Max(a, b),
                            FormattableString.Invariant($"{name}: {a} and {b}")
                        );
                    }
                },
                iter: LongRun.Cases(20)
            );

    // Sweeping the cord through the pull: the worst case is lowest at an end of the cord's range, never between.
    [Fact]
    public void Between_the_ends_of_the_cord_nothing_is_lower() =>
        Cases.Sample(
            c =>
            {
                Gasket cord = c.Job.Gasket;
                double whole = Of(c, c.Job).MagnetsStopping.Factor;
                for (int i = 0; i <= 4; i++)
                {
                    double p25 = cord.P25MinKPa + ((cord.P25MaxKPa - cord.P25MinKPa) * i / 4);
                    Job at = Cord(
                        c.Job,
                        g => g with { P25MinKPa = p25, P25MaxKPa = p25, SectionTolerance = 0, GrooveDepthTolerance = 0 }
                    );
                    double factor = Of(c, at).MagnetsStopping.Factor;
                    Assert.True(
                        factor >= whole * (1 - Solved),
                        FormattableString.Invariant($"{p25}: {factor}, {whole}")
                    );
                }
            },
            iter: LongRun.Cases(20)
        );

    [Fact]
    public void Nominal_is_never_below_the_worst_case_nor_stays_below_put() =>
        Cases.Sample(
            c =>
            {
                HoldingResult r = Of(c, c.Job);
                Assert.All(
                    new[] { r.VacuumOnly, r.MagnetsOnly, r.MagnetsStopping, r.Both },
                    a => Assert.True(a.Nominal >= a.Factor && a.Stays >= a.Factor && a.Stays <= 999)
                );
                Assert.True(r.Both.Stays >= r.VacuumOnly.Stays && r.Both.Stays >= r.MagnetsOnly.Stays);
            },
            iter: LongRun.Cases(20)
        );
}
