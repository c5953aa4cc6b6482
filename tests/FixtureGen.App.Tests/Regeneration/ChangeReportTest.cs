using System.Text.Json.Nodes;
using FixtureGen.App.Library;
using FixtureGen.App.Tests.Support;
using FixtureGen.Output.Reports;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>What the owner of a library reads after the plate changed.</summary>
public sealed class ChangeReportTest
{
    private const string Job = "label-clip";

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_block_that_the_plate_no_longer_fits_is_told_until_somebody_answers()
    {
        using TempLibrary library = new(Job);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--cut", Job).Exit);
        library.Edit("templates/plates/master.toml", "at = [7.9, 7.9]", "at = [7.91, 7.9]");
        Ran first = Cli.Run(library.Folder, "regenerate", "--json");
        JsonNode notice = Assert.Single(first.Json["notices"]!.AsArray())!;
        Assert.Equal((1, "open"), ((int)notice["revision"]!, (string)notice["answer"]!));
        JsonNode recut = Assert.Single(first.Json["recut"]!.AsArray())!;
        Assert.Equal((1, 2, 4), ((int)recut["shelfRevision"]!, (int)recut["revision"]!, (int)recut["magnets"]!));
        Assert.True((double)recut["minutes"]! > 1);

        // r2 is planned and up to date now, and hides nothing
        Ran second = Cli.Run(library.Folder, "regenerate", "--json");
        Assert.Equal("unchanged", (string)second.Json["jobs"]![0]!["result"]!);
        Assert.Single(second.Json["notices"]!.AsArray());
        string page = File.ReadAllText(Path.Combine(library.Folder, "out", "regenerate.html"));
        Assert.Contains($"SCRAP the block of {Job} revision 1", page, StringComparison.Ordinal);
        Assert.Contains("Blocks to cut anew", page, StringComparison.Ordinal);

        string[] accept = ["register", library.Jobs, "--accept", Job, "--why", "=the hole was opened"];
        Assert.Equal(0, Cli.Run(library.Folder, accept).Exit);
        Assert.Empty(Cli.Run(library.Folder, "regenerate", "--json").Json["notices"]!.AsArray());
        string csv = File.ReadAllText(Path.Combine(library.Folder, "out", "regenerate.csv"));
        Assert.StartsWith("job,result,why,revision,trim revision,number,", csv, StringComparison.Ordinal);
        Assert.Contains($"\r\n{Job},unchanged,up to date,2,1,", csv, StringComparison.Ordinal);
    }

    [Fact]
    public void Magnets_that_are_listed_in_another_order_have_not_moved()
    {
        PlaceFacts[] before = [new(0, 0), new(50, 0), new(50, 40)];
        PlaceFacts[] after = [new(50, 40), new(0, 0), new(50, 0)];
        Assert.Empty(Difference.Moved(Report(before), Report(after)));
        PlaceFacts[] one = [new(50, 40), new(0, 0.5), new(50, 0)];
        Assert.Equal(["magnets: one of 3 from X 0 Y 0 to X 0 Y 0.5 mm"], Difference.Moved(Report(before), Report(one)));
    }

    private static Report Report(PlaceFacts[] magnets) =>
        new()
        {
            Job = Job,
            Ok = true,
            Findings = [],
            Generator = "1",
            Revision = 1,
            Features = new FeatureFacts
            {
                SealedAreaMm2 = 1,
                GasketLoops = [],
                CordLengthMm = 1,
                Magnets = magnets,
                Bolts = [],
                Pins = [],
                Ports = [],
                Zones = 1,
                Label = "",
            },
        };
}
