using FixtureGen.Design.Trim;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class TrimChecksTest
{
    private static readonly Job Shop = DesignBench.Job;

    [Fact]
    public void The_demo_shop_has_nothing_amiss() => Assert.Empty(Checked(Shop));

    [Fact]
    public void A_side_clearance_below_slack_and_run_out_is_told_with_what_is_missing()
    {
        Job just = Shop with
        {
            Shell = Shop.Shell with { SlackMax = Shop.Rules.SideClearance - Shop.TrimTool.RunOut - 1e-9 },
        };
        Job loose = Shop with { Shell = Shop.Shell with { SlackMax = Shop.Rules.SideClearance } };

        Assert.Empty(Checked(just));
        Finding told = Assert.Single(Checked(loose));
        Assert.Equal(("side-clearance-short", Severity.Warning), (told.Code, told.Severity));
        double clearance = Shop.Rules.SideClearance;
        double runOut = Shop.TrimTool.RunOut;
        Assert.Equal(
            [clearance, clearance, runOut, clearance + runOut, runOut],
            DesignBench.Amounts(told),
            (a, b) => Math.Abs(a - b) < 1e-6
        );
    }

    [Fact]
    public void A_tab_as_thick_as_the_shell_and_flutes_shorter_than_the_cut_are_told()
    {
        double deep = Shop.Shell.ThicknessMax + Shop.Rules.TipBelowShell;
        Job reaches = Shop with { TrimTool = Shop.TrimTool with { FluteLength = deep } };
        Job tooShort = Shop with { TrimTool = Shop.TrimTool with { FluteLength = deep - 0.01 } };
        Job thickTab = Shop with { Rules = Shop.Rules with { TabThickness = Shop.Shell.Thickness } };

        Assert.Empty(Checked(reaches));
        Finding flutes = Assert.Single(Checked(tooShort));
        Assert.Equal("trim-flutes-too-short", flutes.Code);
        string[] named =
        [
            .. Shop
                .Tools.Where(t => flutes.Remedy.Contains($"\"{t.Name}\"", StringComparison.Ordinal))
                .Select(t => t.Name),
        ];
        Assert.NotEmpty(named);
        Assert.All(named, n => Assert.Empty(Checked(Shop with { TrimTool = Shop.Tools.Single(t => t.Name == n) })));
        double tip = DesignBench.Amounts(
            flutes with
            {
                Message = flutes.Remedy[flutes.Remedy.IndexOf("at most", StringComparison.Ordinal)..],
            }
        )[0];
        Assert.Empty(Checked(tooShort with { Rules = Shop.Rules with { TipBelowShell = tip } }));
        Assert.Equal("tab-thicker-than-shell", Assert.Single(Checked(thickTab)).Code);
    }

    private static Finding[] Checked(Job job) => [.. TrimChecks.Shop(DesignBench.Rectangle(100, 80, 10), job)];
}
