using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Verify.Designs;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>The reel cover's plug spoiled in its finished design: its programs agree with that, and only the form as drawn can tell.</summary>
[Trait("Speed", "Slow")]
public sealed class PlugDamageTest
{
    private static readonly Kernel Exact = new(Tolerances.House);

    private static readonly Dictionary<string, Func<FixtureDesign, FixtureDesign>> Damage = new()
    {
        ["dropped"] = d => Sunk(Without(d, FeatureKind.Plug, FeatureKind.PlugVent), d.FixtureHeight - d.SkimmedZ),
        ["fatter"] = d => Plugs(d, a => Grown(a, 0.15)),
        ["thinner"] = d => Plugs(d, a => Grown(a, -0.8)),
        ["lower"] = d => Sunk(d, -1),
        ["without vents"] = d => Without(d, FeatureKind.PlugVent),
        ["unturned"] = d => d,
    };

    [Theory]
    [InlineData("dropped", "form-unsupported")]
    [InlineData("fatter", "wall-off")]
    [InlineData("thinner", "wall-off")]
    [InlineData("lower", "floor-off")]
    [InlineData("without vents", "feature-missing")]
    public void Spoiled_plug_is_refused_for_what_is_wrong(string damage, string code)
    {
        VerifyResult result = Judge(damage);
        Assert.False(result.Ok);
        Assert.Contains(code, result.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Code));
    }

    [Fact]
    public void The_plug_as_designed_is_not() =>
        Assert.DoesNotContain(Judge("unturned").Findings, f => f.Severity == Severity.Error);

    private static VerifyResult Judge(string damage)
    {
        DemoProgram demo = DemoPrograms.Of("reel-cover");
        Job job = HeldJobs.Nominal(demo.Job);
        FixtureDesign design = Damage[damage](demo.Design);
        ImmutableArray<ProgramText>? texts = DesignRun.Programs(design, job);
        Assert.NotNull(texts);
        return Verifier.Judge(new VerifyRequest(job, design, texts.Value, Limits.House) { Drawing = demo.Drawing });
    }

    private static FixtureDesign Without(FixtureDesign design, params FeatureKind[] kinds) =>
        design with
        {
            Features = [.. design.Features.Where(f => !kinds.Contains(f.Kind))],
        };

    /// <summary>Skim and plug so much lower.</summary>
    private static FixtureDesign Sunk(FixtureDesign design, double by) =>
        design with
        {
            Features =
            [
                .. design.Features.Select(f =>
                    f switch
                    {
                        PocketFeature { Kind: FeatureKind.Skim } s => s with
                        {
                            FloorZ = s.FloorZ + by,
                            Removals = [.. s.Removals.Select(r => r with { FloorZ = r.FloorZ + by })],
                        },
                        PocketFeature { Kind: FeatureKind.Plug } p => p with
                        {
                            TopZ = p.TopZ + by,
                            Removals =
                            [
                                .. p
                                    .Removals.Where(r => r.FloorZ < p.TopZ + by)
                                    .Select(r => r with { TopZ = r.TopZ + by }),
                            ],
                        },
                        GrooveFeature { Kind: FeatureKind.PlugVent } v => v with
                        {
                            TopZ = v.TopZ + by,
                            FloorZ = v.FloorZ + by,
                            Removals =
                            [
                                .. v.Removals.Select(r => r with { TopZ = r.TopZ + by, FloorZ = r.FloorZ + by }),
                            ],
                        },
                        _ => f,
                    }
                ),
            ],
        };

    private static FixtureDesign Plugs(
        FixtureDesign design,
        Func<ImmutableArray<Region>, ImmutableArray<Region>> spoil
    ) =>
        design with
        {
            Features =
            [
                .. design.Features.Select(f =>
                    f is PocketFeature { Kind: FeatureKind.Plug } p
                        ? p with
                        {
                            Area = spoil(p.Area),
                            Removals = [.. p.Removals.Select(r => r with { Area = spoil(r.Area) })],
                        }
                        : f
                ),
            ],
        };

    private static ImmutableArray<Region> Grown(ImmutableArray<Region> clearing, double by)
    {
        Region[] islands = [.. clearing.SelectMany(a => a.Holes).Select(h => Region.From(Contours.Ccw(h)))];
        return Exact.Difference([.. clearing.Select(a => Region.From(a.Outer))], Exact.Offset(islands, by));
    }
}
