using FixtureGen.Design.Block;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>How long the bolts must be: pitch, thread, relief and plate of the demo shop, worked by hand.</summary>
public sealed class ScrewReachTest
{
    private static readonly Part Plain = DesignBench.Rectangle(140, 90, 12);

    private static Job Bolted(Func<Screw, Screw> screw) => DesignBench.Job with { Bolt = screw(DesignBench.Job.Bolt) };

    /// <summary>
    /// Block 18.5 mm; counterbore 2.032 (washer) + 6.35 (head) + 0.5 (air) = 8.882, so the seat is at 9.618 and the washer's top at
    /// 11.65. Relief 0.3 in = 7.62, one diameter 6.35: 25.62. Plate 25.4 less a pitch of 1.27: 35.78. 6.35 / 1.27 = 5 turns. A
    /// length of 1 1/4 in (ASME B18.3) lies between.
    /// </summary>
    [Fact]
    public void A_quarter_inch_screw_through_the_demo_block_is_25_62_to_35_78_long_and_holds_by_five_turns()
    {
        ScrewReach reach = ScrewReach.For(DesignBench.Begun(Plain), DesignBench.Job)!;
        Assert.Equal(25.62, reach.Shortest, 3);
        Assert.Equal(35.78, reach.Longest, 3);
        Assert.Equal(5, reach.Turns);
        Assert.InRange(1.25 * 25.4, reach.Shortest, reach.Longest);
    }

    [Fact]
    public void A_coarser_thread_is_a_pitch_shorter_at_the_tip_and_has_fewer_turns()
    {
        Job job = Bolted(s => s with { Pitch = 1.5 });
        ScrewReach reach = ScrewReach.For(DesignBench.Begun(Plain, job), job)!;
        Assert.Equal(25.62, reach.Shortest, 3);
        Assert.Equal(11.65 + 25.4 - 1.5, reach.Longest, 3);
        Assert.Equal(4, reach.Turns);
    }

    [Fact]
    public void The_bolt_stop_says_length_turns_key_and_torque()
    {
        string text = OperatorText.BoltsIn(DesignBench.Begun(Plain), DesignBench.Job);
        Assert.Contains(
            ", 25.7 TO 35.7 MM LONG, 5 FULL TURNS IN THE THREAD AT LEAST, KEY 3.0 MM INTO THE HEAD, TO 1.1 NM. THEN START",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("THREADS AND SOCKETS FREE OF CHIPS", text, StringComparison.Ordinal);
    }

    /// <summary>Half an inch of plate: 12.7 - 7.62 - 1.27 = 3.81 of thread, 2.54 less than the 6.35 that are wanted.</summary>
    [Fact]
    public void A_plate_too_thin_for_one_diameter_of_thread_is_refused_with_the_amount()
    {
        Job job = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Thickness = 12.7 } };
        Finding f = DesignBench.Finding(DesignBench.Begin(Plain, job), "screw-thread-short");
        Assert.Equal(Severity.Error, f.Severity);
        Assert.Equal(
            "below a relief of 7.62 mm a plate 12.7 mm thick leaves 3.81 mm of thread, a pitch of 1.27 mm taken off: 2.54 mm less than the 6.35 mm, one diameter, that 'screw-1-4-20' is to be screwed in",
            f.Message
        );
        Assert.Contains("relief", f.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hexagon_as_deep_as_the_head_is_refused()
    {
        string text = DemoShop.Files.Find("fasteners", "screw-m6")!.Value.Text;
        string deep = TomlLines.Set(text, "", "key_engagement", "6.0");
        Finding f = Assert.Single(FastenerReader.ReadScrew(deep, "screw-m6.toml", "screw-m6").Findings);
        Assert.Equal("shop-contradiction", f.Code);
        Assert.Equal("A hexagon 6 mm deep goes through the head of 6 mm.", f.Message);
        Assert.True(FastenerReader.ReadScrew(text, "screw-m6.toml", "screw-m6").Ok);
    }

    [Fact]
    public void A_holder_has_no_length_any_more()
    {
        string rack = DemoShop.Files.Find("tools", "rack")!.Value.Text;
        string old = rack.Replace(
            "name = \"mill-3-8\"\n",
            "name = \"mill-3-8\"\nholder_length = 1.6\n",
            StringComparison.Ordinal
        );
        Finding f = Assert.Single(ToolReader.Read(old, "rack.toml", "rack").Findings);
        Assert.Equal("toml-key-gone", f.Code);
        Assert.Equal(
            "'tool[0].holder_length' is no key any more: a holder counts as endlessly long, since the spindle follows it.",
            f.Message
        );
    }
}
