using FixtureGen.Output;
using FixtureGen.Output.Reports;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>What a person reads of a fixture that magnets alone hold: magnets to count, and nothing of cord, leak or gauge.</summary>
public sealed class ByMagnetsPapersTest
{
    private const string Name = "tip-guard";

    private static readonly Lazy<Outcome> Made = new(() =>
        Delivery.Make(
            new Request
            {
                JobName = Name,
                JobFile = $"outlines/{Name}.toml",
                JobText = File.ReadAllText(DemoShop.StatedJob(Name)),
                DrawingFile = $"outlines/{Name}.dxf",
                Drawing = File.ReadAllBytes(Path.Combine(DemoShop.Root, "outlines", Name + ".dxf")),
                Shop = DemoShop.Files,
                Registered = new Registered(1160, "TG-1", 1, false),
                Version = "0",
                Progress = _ => { },
            }
        )
    );

    private static string Text(string ending) =>
        Tools.Run(
            "pdftotext",
            "poppler-utils",
            "-layout in.pdf -",
            ("in.pdf", [.. Made.Value.Files.Single(f => f.Name == $"{Name}.{ending}").Bytes])
        );

    [Fact]
    public void The_traveler_counts_magnets_and_names_no_vacuum()
    {
        string text = Text("traveler.pdf");
        Assert.All(new[] { "vacuum", "cord", "gauge", "kPa" }, w => Assert.DoesNotMatch($@"(?i)\b{w}\b", text));
        Assert.Contains("They alone hold the shell", text, StringComparison.Ordinal);
        Assert.Contains("Magnets to see: 3", text, StringComparison.Ordinal);
    }

    /// <summary>The block is still cut on the plate's vacuum, which the sheet says of the block alone.</summary>
    [Fact]
    public void The_sheet_has_no_cord_and_no_leak_check()
    {
        string text = Text("setup.pdf");
        Assert.DoesNotMatch(@"(?i)gasket|\bsealed\b|leak check|\bcord changed", text);
        Assert.Contains("HELD BY 3 MAGNETS ALONE", text, StringComparison.Ordinal);
        Assert.Contains("The part may fly off if a magnet is missing", text, StringComparison.Ordinal);
        Assert.Contains("pacemaker", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_report_says_what_holds_and_its_old_keys_stay()
    {
        Report report = Made.Value.Report;
        Assert.True(report.Ok);
        Assert.Equal("magnets", report.Holding!.HeldBy);
        Assert.Equal(0, report.Holding.VacuumOnly.Factor);
        Assert.True(report.Holding.MagnetsOnly.Factor >= 2);
        Assert.Empty(report.Features!.GasketLoops);
        Assert.Empty(report.Features.Ports);
        Assert.DoesNotContain(
            "cord",
            System.Text.Encoding.UTF8.GetString([
                .. Made.Value.Files.Single(f => f.Name == $"{Name}.cutlist.csv").Bytes,
            ]),
            StringComparison.Ordinal
        );
    }
}
