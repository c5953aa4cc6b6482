using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class JobTemplateTest
{
    [Theory]
    [InlineData(LengthUnit.Millimetre, 120, 80, false, "8-5")]
    [InlineData(LengthUnit.Inch, 120, 80, true, "8-5")]
    [InlineData(LengthUnit.Millimetre, 230, 80, false, "10")]
    [InlineData(null, 5, 3, false, "8-5")]
    public void A_fresh_job_reads_without_an_error(
        LengthUnit? unit,
        double width,
        double height,
        bool form,
        string blank
    )
    {
        string text = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", unit, width, height, form, false),
            DemoShop.Files
        );
        Job job = DemoShop.Job(text, "bulb-dibber");

        Assert.Equal("Bulb dibber", job.Title);
        Assert.Equal("BD-1", job.FixtureId);
        Assert.EndsWith(blank, job.Blank.Name, StringComparison.Ordinal);
        Assert.Equal(1, job.TrimTool.Flutes);
        Assert.Equal(CordKind.Sponge, job.Gasket.Kind);
        Assert.Equal(form ? LocatorKind.Form : LocatorKind.Hand, job.Locator);
        Assert.Equal(unit is null, text.Contains("unit = \"mm\"", StringComparison.Ordinal));
    }

    [Fact]
    public void A_drawing_with_layers_of_its_own_is_asked_which_is_the_outline()
    {
        DrawingFacts facts = new("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false)
        {
            Layers =
            [
                new SuggestedRole("Dim", CurveRole.Ignore, 0, 7),
                new SuggestedRole("holes", CurveRole.Cutout, 3, 0),
                new SuggestedRole("Part Edge", CurveRole.Outline, 1, 0),
                new SuggestedRole("slots", CurveRole.Cutout, 2, 0),
            ],
        };
        string text = JobTemplate.NewJob(facts, DemoShop.Files);
        Assert.Equal(DrawingRoles.House.Layers, DemoShop.Job(text, "bulb-dibber").Roles.Layers);
        string named = text.Replace("# [drawing", "[drawing", StringComparison.Ordinal)
            .Replace("# outline", "outline", StringComparison.Ordinal)
            .Replace("# ignore", "ignore", StringComparison.Ordinal)
            .Replace("# cutout", "cutout", StringComparison.Ordinal);
        Assert.Equal(
            "Outline Part Edge, Cutout holes, Cutout slots, Ignore Dim",
            string.Join(
                ", ",
                DemoShop.Job(named, "bulb-dibber").Roles.Layers.Where(l => l.Stated).Select(l => $"{l.Role} {l.Name}")
            )
        );
    }

    /// <summary>Without the # of the last part the job says the same; only what is chosen otherwise when left out is passed over.</summary>
    [Fact]
    public void Every_default_is_shown_as_it_is()
    {
        string text = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false),
            DemoShop.Files
        );
        int from = text.IndexOf("# [block]", StringComparison.Ordinal);
        string[] chosen =
        [
            "# [trim]",
            "# passes",
            "# feed",
            "# rpm",
            "# [placement]",
            "# at ",
            "# angle_deg",
            "# [[port]]",
            "# [hold]",
            "# accept_low_hold",
        ];
        IEnumerable<string> said = text[from..]
            .Split('\n')
            .Where(l => !chosen.Any(c => l.StartsWith(c, StringComparison.Ordinal)))
            .Select(l => l.StartsWith("# dull_factor", StringComparison.Ordinal) ? "# [trim]\n" + l : l)
            .Select(l => l.Replace("# [", "[", StringComparison.Ordinal))
            .Select(l => l.StartsWith("# ", StringComparison.Ordinal) ? l[2..] : l);
        string stated =
            text[..from] + string.Join('\n', said).Replace("\n# [trim]", "\n[trim]", StringComparison.Ordinal);

        Job silent = DemoShop.Job(text, "bulb-dibber");
        Job spoken = DemoShop.Job(stated, "bulb-dibber");

        Assert.Equal(18.5, spoken.Rules.FixtureHeight);
        Assert.Equal(silent.Rules with { FixtureHeight = 18.5 }, spoken.Rules);
        Assert.Equal(silent.Limits, spoken.Limits);
        Assert.Equal(silent.DullFactor, spoken.DullFactor);
        Assert.Equal(silent.Skirt, spoken.Skirt);
        Assert.Equal(silent.BlankThickness, spoken.BlankThickness, 1e-9);
        Assert.Equal(silent.Vacuum.AlarmKPa, spoken.Vacuum.AlarmKPa, 1e-9);
        Assert.Equal(silent.Vacuum.PumpRatedKPa, spoken.Vacuum.PumpRatedKPa, 1e-9);
        Assert.Equal(silent.Vacuum.LeakHoleMm, spoken.Vacuum.LeakHoleMm, 1e-9);
        Assert.Equal(silent.Vacuum.AlarmToleranceKPa, spoken.Vacuum.AlarmToleranceKPa, 1e-9);
    }

    /// <summary>A wrong key's finding lists the right ones: each of them stands in a fresh job.</summary>
    [Theory]
    [InlineData("rules")]
    [InlineData("limits")]
    [InlineData("vacuum")]
    [InlineData("trim")]
    [InlineData("block")]
    [InlineData("skirt")]
    [InlineData("magnets")]
    [InlineData("shell")]
    [InlineData("hold")]
    public void No_key_is_hidden(string table)
    {
        string fresh = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false),
            DemoShop.Files
        );
        Finding unknown = Assert.Single(
            JobReader.Read(DemoShop.PlainJob(more: $"[{table}]\nzzz = 1"), "outlines/x.toml", DemoShop.Files).Findings
        );
        string list = unknown.Remedy.Split("nown here: ")[1];

        Assert.Equal("toml-unknown-key", unknown.Code);
        Assert.All(list.TrimEnd('.').Split(", "), key => Assert.Matches($@"(?m)^(# )?{key} = ", fresh));
    }
}
