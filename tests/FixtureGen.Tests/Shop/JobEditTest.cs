using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class JobEditTest
{
    private const string Text = """
        # Größe 5 — a job
        units = "mm"
        title = "Étui"   # the name

        [magnets]
        count = 4        # as many

        # the first
        [[magnet]]
        at = [10, 20]    # by the hinge

        # the second
        [[magnet]]
        at = [30, 40]
        locked = false

        # below
        [skirt]
        hold = "tabs"
        """;

    private static string Lines(string text) => text.ReplaceLineEndings("\n");

    [Fact]
    public void One_value_is_exchanged_and_nothing_else() =>
        Assert.Equal(
            Lines(Text).Replace("count = 4 ", "count = 6 ", StringComparison.Ordinal),
            JobEdit.Set(Lines(Text), "j.toml", "magnets.count", "6").Value
        );

    [Fact]
    public void A_missing_key_goes_behind_the_last_of_its_table() =>
        Assert.Equal(
            Lines(Text).Replace("# as many\n", "# as many\nfactor_target = 1.5\n", StringComparison.Ordinal),
            JobEdit.Set(Lines(Text), "j.toml", "magnets.factor_target", "1.5").Value
        );

    [Fact]
    public void A_missing_key_at_the_top_goes_before_the_tables() =>
        Assert.Equal(
            Lines(Text).Replace("# the name\n", "# the name\nrevision = 2\n", StringComparison.Ordinal),
            JobEdit.Set(Lines(Text), "j.toml", "revision", "2").Value
        );

    [Fact]
    public void A_missing_table_goes_to_the_end() =>
        Assert.Equal(
            Lines(Text) + "\n\n[placement]\nangle_deg = 90.0\n",
            JobEdit.Set(Lines(Text), "j.toml", "placement.angle_deg", "90.0").Value
        );

    [Theory]
    [InlineData("[trim]\nrpm = 2\nfeed = \"3 mm/min\"\n\n[x]\n", "[trim]\nrpm = 2\n\n[x]\n")]
    [InlineData("[trim]\nfeed = 3 # tried in May\nrpm = 2\n", "[trim]\n# tried in May\nrpm = 2\n")]
    [InlineData("trim.feed = 3\ntitle = \"#1\"\n", "title = \"#1\"\n")]
    [InlineData("[trim]\nfeed = \"3 # mm\"", "[trim]\n")]
    [InlineData("[trim]\nrpm = 2\n", "[trim]\nrpm = 2\n")]
    public void A_key_is_taken_out_with_its_line_and_its_comment_stays(string before, string after) =>
        Assert.Equal(after, JobEdit.Remove(before, "job.toml", "trim.feed").Value);

    [Fact]
    public void Places_that_stay_are_not_written_anew() =>
        Assert.Equal(
            Lines(Text),
            JobEdit
                .SetMagnets(
                    Lines(Text),
                    "j.toml",
                    [new MagnetWish(new(10, 20), true), new MagnetWish(new(30, 40), false)]
                )
                .Value
        );

    [Fact]
    public void Ports_are_added_moved_and_taken_out()
    {
        string added = JobEdit.SetPorts(Lines(Text), "j.toml", [new Point2(5, 6.5)]).Value!;
        Assert.Equal(Lines(Text) + "\n\n[[port]]\nat = [5.0, 6.5]\n", added);
        string moved = JobEdit.SetPorts(added, "j.toml", [new Point2(7, 6.5)]).Value!;
        Assert.Equal(added.Replace("[5.0, 6.5]", "[7.0, 6.5]", StringComparison.Ordinal), moved);
        Assert.DoesNotContain("port", JobEdit.SetPorts(moved, "j.toml", []).Value!, StringComparison.Ordinal);
    }

    [Fact]
    public void Fewer_magnets_keep_the_comments_of_those_that_stay()
    {
        string edited = JobEdit.SetMagnets(Lines(Text), "j.toml", [new MagnetWish(new(11, 21.25), true)]).Value!;

        Assert.Contains("at = [11.0, 21.25]    # by the hinge\n", edited, StringComparison.Ordinal);
        Assert.DoesNotContain("30, 40", edited, StringComparison.Ordinal);
        Assert.Contains("# below\n[skirt]", edited, StringComparison.Ordinal);
    }

    [Fact]
    public void More_magnets_are_added_behind_the_last()
    {
        MagnetWish[] wanted =
        [
            new(new(10, 20), true),
            new(new(30, 40), false),
            new(new(50, 60), true),
            new(new(70, 80), false),
        ];
        string edited = JobEdit.SetMagnets(Lines(Text), "j.toml", wanted).Value!;

        Assert.Contains(
            "locked = false\n\n[[magnet]]\nat = [50.0, 60.0]\n\n[[magnet]]\nat = [70.0, 80.0]\nlocked = false\n\n# below",
            edited,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("units = \"in\"")]
    [InlineData("units = \"mm\"")]
    [InlineData("")]
    public void Magnets_written_into_a_whole_job_are_read_back_in_millimetres(string units)
    {
        MagnetWish[] wanted = [new(new(25.4, -12.7), true), new(new(0, 50.8), false)];
        string job = DemoShop.PlainJob().Replace("units = \"mm\"", units, StringComparison.Ordinal);
        string once = JobEdit.SetMagnets(job, "outlines/job.toml", wanted).Value!;
        string twice = JobEdit.SetMagnets(once, "outlines/job.toml", wanted).Value!;

        Assert.Equal(wanted, DemoShop.Job(once).Magnets);
        Assert.Equal(once, twice);
    }

    [Fact]
    public void A_text_that_does_not_parse_is_left_alone()
    {
        Stage<string> stage = JobEdit.Set("a = \n", "j.toml", "a", "1");

        Assert.Null(stage.Value);
        Assert.Equal("toml-syntax", stage.Findings[0].Code);
    }
}
