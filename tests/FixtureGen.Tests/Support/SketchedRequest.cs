using FixtureGen.Tests.Dxf;

namespace FixtureGen.Tests.Support;

/// <summary>A part drawn by a test, held by hand on two magnets with a stated trim: little is left to be chosen.</summary>
internal static class SketchedRequest
{
    /// <param name="entities">As <see cref="Sketch"/> makes them, mm.</param>
    /// <param name="top">Keys at the top of the job, each with its end of line.</param>
    public static Request Make(string entities, string top = "") =>
        new()
        {
            JobName = "sketch",
            JobFile = "outlines/sketch.toml",
            JobText =
                top
                + DemoShop.PlainJob(
                    more: """

                    [shell]
                    thickness = 1.5
                    slack_max = 0.3
                    [locator]
                    by = "hand"
                    [magnets]
                    count = 2
                    [trim]
                    passes = 2
                    feed = "1000 mm/min"
                    rpm = 20000
                    """
                ),
            DrawingFile = "outlines/sketch.dxf",
            Drawing = Sketch.Bytes(Sketch.Text(entities)),
            Shop = DemoShop.Files,
            Registered = new Registered(1000, "F1000", 1, Overrules: false),
            Version = "test",
            Progress = static _ => { },
        };
}
