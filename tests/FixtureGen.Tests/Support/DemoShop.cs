using System.Runtime.CompilerServices;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>The repository's own templates/ and outlines/ for tests.</summary>
internal static class DemoShop
{
    public static string Root { get; } = RootFolder();

    /// <summary>
    /// A demo job with every key stated, as demo jobs were before what they leave open was solved: for tests whose subject is not the
    /// choice, and so that what is stated stays honoured. The drawings are those of outlines/.
    /// </summary>
    public static string StatedJob(string name) => Path.Combine(Root, "tests", "stated", name + ".toml");

    public static ShopFiles Files { get; } =
        new(
            (kind, name) =>
            {
                string path = Path.Combine(Root, "templates", kind, name + ".toml");
                return File.Exists(path) ? ($"templates/{kind}/{name}.toml", File.ReadAllText(path)) : null;
            },
            kind =>
                Directory.Exists(Path.Combine(Root, "templates", kind))
                    ? Directory
                        .EnumerateFiles(Path.Combine(Root, "templates", kind), "*.toml")
                        .Select(p => Path.GetFileNameWithoutExtension(p))
                    : []
        );

    /// <summary>A job text with nothing but the shop names, and what is added.</summary>
    public static string PlainJob(string blank = "hdpe-8-5", string control = "inch-centre-arcs", string more = "") =>
        $"""
            units = "mm"
            [shop]
            plate = "master"
            blank = "{blank}"
            shell = "pvc-acrylic"
            tools = "rack"
            trim_tool = "trim-1-8-up"
            magnet = "disc-12-7x6-35"
            gasket = "sponge-1-8"
            bolt = "screw-1-4-20"
            pin = "pin-1-4"
            control = "{control}"
            {more}
            """;

    /// <summary>A control of the shop.</summary>
    public static Control Control(string name)
    {
        (string path, string text) = Files.Find("controls", name)!.Value;
        Stage<Control> stage = ControlReader.Read(text, path, name);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }

    /// <summary>The job, which must have no error.</summary>
    public static Job Job(string text, string name = "job")
    {
        Stage<Job> stage = JobReader.Read(text, $"outlines/{name}.toml", Files);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }

    private static string RootFolder([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", ".."));
}
