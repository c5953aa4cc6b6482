using FixtureGen.Output;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests;

[Trait("Speed", "Slow")]
public sealed class PipelineTest
{
    private static readonly string Folder = Path.Combine(DemoShop.Root, "outlines");

    [Fact]
    public void A_cutter_that_is_chosen_is_the_one_of_the_whole_run()
    {
        Request request = Label(
            "trim_tool = \"trim-1-8-up\"\n",
            "",
            new Registered(1000, "F1000", 1, Overrules: false)
        );
        // Edges so dull that the upcut, the first one looked at, does not hold.
        string duller = request.JobText.Replace(
            "rpm = 22000",
            "rpm = 22000\ndull_factor = 2.02",
            StringComparison.Ordinal
        );
        Outcome outcome = Delivery.Check(request with { JobText = duller });

        Assert.True(outcome.Report.Ok, string.Join('\n', outcome.Findings));
        Assert.NotEqual("trim-1-8-up", outcome.Job!.TrimTool.Name);
        Assert.All(outcome.Design!.TrimCuts, c => Assert.Equal(outcome.Job.TrimTool, c.Tool));
    }

    /// <summary>A remake that rises in revision on the way is byte for byte what a run under that revision makes.</summary>
    [Fact]
    public void A_revision_given_on_the_way_gives_the_bytes_of_a_run_under_it()
    {
        Registered first = new(1000, "F1000", 1, Overrules: false);
        Registered second = new(1230, "F1230", 4, Overrules: true);
        Outcome raised = Delivery.Make(Label("revision = 1", "", first) with { Revise = (_, _) => second });
        Outcome fresh = Delivery.Make(Label("revision = 1", "", second));

        Assert.True(raised.Report.Ok, string.Join('\n', raised.Findings));
        Assert.Equal(4, raised.Report.Revision);
        Assert.Equal(
            fresh.Files.Select(f => (f.Name, Convert.ToHexString(f.Bytes.AsSpan()))),
            raised.Files.Select(f => (f.Name, Convert.ToHexString(f.Bytes.AsSpan())))
        );
    }

    /// <summary>A name that the embedded letters cannot print makes every file, and the papers' boxes are told.</summary>
    [Fact]
    public void A_letter_that_papers_cannot_print_is_told()
    {
        Request request = Label("revision = 1", "", new Registered(1000, "F1000", 1, Overrules: false));
        Outcome made = Delivery.Make(request with { JobName = "clip-漢", JobFile = "outlines/clip-漢.toml" });
        Assert.True(made.Report.Ok, string.Join('\n', made.Findings));
        Assert.Contains(made.Findings, f => f.Code == "paper-character" && f.Where == "name");
        Assert.Contains(made.Report.Findings, f => f.Code == "paper-character");
    }

    private static Request Label(string from, string to, Registered registered)
    {
        string text = File.ReadAllText(DemoShop.StatedJob("label-clip"));
        Assert.Contains(from, text, StringComparison.Ordinal);
        return new()
        {
            JobName = "label-clip",
            JobFile = "outlines/label-clip.toml",
            JobText = text.Replace(from, to, StringComparison.Ordinal),
            DrawingFile = "outlines/label-clip.dxf",
            Drawing = File.ReadAllBytes(Path.Combine(Folder, "label-clip.dxf")),
            Shop = DemoShop.Files,
            Registered = registered,
            Version = "test",
            Progress = static _ => { },
        };
    }
}
