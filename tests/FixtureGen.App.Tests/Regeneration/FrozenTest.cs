using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>A block on the shelf is what it was cut with: nothing may give it another program under its number or revision.</summary>
[Trait("Speed", "Slow")]
public sealed class FrozenTest
{
    private static readonly string Job = TempLibrary.Demo.First();

    [Fact]
    public void Make_refuses_another_program_under_the_number_of_a_cut_block()
    {
        using TempLibrary library = Cut();
        Dictionary<string, byte[]> before = Files(library);
        Change(library);
        Ran ran = Cli.Run(library.Folder, "make", library.Job(Job), "--json");
        Assert.Equal(1, ran.Exit);
        Assert.Contains("revision-frozen", Codes(ran));
        Assert.Equal(before, Files(library));
        string elsewhere = Path.Combine(library.Folder, "elsewhere");
        Assert.Equal(1, Cli.Run(library.Folder, "make", library.Job(Job), "-o", elsewhere).Exit);
        Assert.False(Directory.Exists(elsewhere));
    }

    [Fact]
    public void Make_of_what_was_cut_goes_on_as_before()
    {
        using TempLibrary library = Cut();
        Assert.Equal(0, Cli.Run(library.Folder, "make", library.Job(Job)).Exit);
    }

    /// <summary>Stating the next revision by hand leaves the number: the machine would have one program for two blocks.</summary>
    [Fact]
    public void A_revision_stated_by_hand_does_not_take_the_number()
    {
        using TempLibrary library = Cut();
        Change(library);
        library.Edit($"outlines/{Job}.toml", "revision = 1", "revision = 2");
        Ran ran = Cli.Run(library.Folder, "make", library.Job(Job), "--json");
        Assert.Equal(1, ran.Exit);
        Assert.Contains("revision-frozen", Codes(ran));
    }

    [Fact]
    public void A_lost_output_folder_does_not_make_the_block_new()
    {
        using TempLibrary library = Cut();
        byte[] trim = File.ReadAllBytes(Kept(library, ".trim.nc"));
        Directory.Delete(library.Out(Job), recursive: true);
        JsonNode same = Regenerated(library);
        Assert.Equal((1, "its files are not there"), ((int)same["revision"]!, (string)same["why"]!));
        Assert.Equal(trim, File.ReadAllBytes(Path.Combine(library.Out(Job), Job + ".trim.nc")));

        Directory.Delete(library.Out(Job), recursive: true);
        Change(library);
        JsonNode next = Regenerated(library);
        Assert.Equal((1, 2), ((int)next["revision"]!, (int)next["trim"]!));
        Assert.Equal((int)same["programNumber"]!, (int)next["programNumber"]!);
        Assert.Contains(Bytes(Path.Combine(library.Folder, ".fixturegen", "store")), b => b.SequenceEqual(trim));
    }

    /// <summary>Its block programs come out the same: the block stays, and its new trim is kept beside what it was cut with.</summary>
    [Fact]
    public void A_new_trim_for_a_block_on_the_shelf_leaves_block_number_and_revision()
    {
        using TempLibrary library = Cut();
        byte[] top = File.ReadAllBytes(Kept(library, ".top.nc"));
        byte[] trim = File.ReadAllBytes(Kept(library, ".trim.nc"));
        Change(library);
        JsonNode row = Regenerated(library);
        Assert.Equal((1, 2), ((int)row["revision"]!, (int)row["trim"]!));
        Assert.Equal([Job + ".trim.nc"], row["reload"]!.AsArray().Select(r => (string)r!));
        Assert.Equal(top, File.ReadAllBytes(Path.Combine(library.Out(Job), Job + ".top.nc")));
        Assert.NotEqual(trim, File.ReadAllBytes(Path.Combine(library.Out(Job), Job + ".trim.nc")));
        JsonNode fixture = Cli.Run(library.Folder, "register", library.Jobs, "--json").Json["fixtures"]![0]!;
        Assert.Equal(
            ("cut", 1, 2),
            ((string)fixture["state"]!, (int)fixture["blocks"]!.AsArray().Single()!["trim"]!, (int)fixture["trim"]!)
        );
        Assert.Equal("unchanged", (string)Regenerated(library)["result"]!);
        Assert.Equal(
            File.ReadAllBytes(Path.Combine(library.Out(Job), Job + ".trim.nc")),
            File.ReadAllBytes(Kept(library, ".trim.nc"))
        );
    }

    [Fact]
    public void A_spoilt_report_does_not_make_the_block_new()
    {
        using TempLibrary library = Cut();
        File.WriteAllText(Path.Combine(library.Out(Job), Job + ".report.json"), "{");
        Change(library);
        JsonNode row = Regenerated(library);
        Assert.Equal((1, 2), ((int)row["revision"]!, (int)row["trim"]!));
    }

    /// <summary>The length is the same, the depth is not.</summary>
    [Fact]
    public void A_changed_depth_is_noticed_and_never_frozen()
    {
        using TempLibrary library = new(Job);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        string top = Path.Combine(library.Out(Job), Job + ".top.nc");
        byte[] made = File.ReadAllBytes(top);
        Deepen(top);
        Ran cut = Cli.Run(library.Folder, "register", library.Jobs, "--cut", Job);
        Assert.Equal(1, cut.Exit);
        Assert.Contains("register-not-made", cut.Error, StringComparison.Ordinal);
        JsonNode again = Regenerated(library);
        Assert.Equal("made", (string)again["result"]!);
        Assert.Equal(made, File.ReadAllBytes(top));
    }

    [Fact]
    public void Frozen_files_that_were_altered_are_told_and_brought_back()
    {
        using TempLibrary library = Cut();
        byte[] trim = File.ReadAllBytes(Kept(library, ".trim.nc"));
        Deepen(Kept(library, ".trim.nc"));
        JsonNode row = Regenerated(library);
        Assert.Equal("frozen-restored", (string)row["findings"]!.AsArray().Single()!["code"]!);
        Assert.Equal(trim, File.ReadAllBytes(Kept(library, ".trim.nc")));

        Deepen(Kept(library, ".trim.nc"));
        Directory.Delete(Path.Combine(library.Folder, ".fixturegen"), recursive: true);
        Ran ran = Cli.Run(library.Folder, "regenerate", "--json");
        Assert.Equal(1, ran.Exit);
        row = ran.Json["jobs"]!.AsArray().Single()!;
        Assert.Equal("frozen-altered", (string)row["findings"]!.AsArray().Single()!["code"]!);
    }

    private static TempLibrary Cut()
    {
        TempLibrary library = new(Job);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--cut", Job).Exit);
        return library;
    }

    /// <summary>The trim runs slower: another trim program.</summary>
    private static void Change(TempLibrary library) =>
        library.Edit($"outlines/{Job}.toml", "feed = \"1120 mm/min\"", "feed = \"1080 mm/min\"");

    private static string Kept(TempLibrary library, string end) =>
        Path.Combine(library.Folder, "out", Job + ".r1", Job + end);

    private static void Deepen(string program)
    {
        string text = File.ReadAllText(program);
        int at = text.LastIndexOfAny([.. "12345678"], text.IndexOf("M30", StringComparison.Ordinal) - 8);
        char other = text[at] == '1' ? '2' : '1';
        File.WriteAllText(program, text[..at] + other + text[(at + 1)..]);
    }

    private static IEnumerable<byte[]> Bytes(string folder) =>
        Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(File.ReadAllBytes);

    private static JsonNode Regenerated(TempLibrary library) =>
        Cli.Run(library.Folder, "regenerate", "--json").Json["jobs"]!.AsArray().Single()!;

    private static IEnumerable<string> Codes(Ran ran) =>
        ran.Json["findings"]!.AsArray().Select(f => (string)f!["code"]!);

    private static Dictionary<string, byte[]> Files(TempLibrary library) =>
        Directory
            .EnumerateFiles(Path.Combine(library.Folder, "out"), "*", SearchOption.AllDirectories)
            .ToDictionary(f => f, File.ReadAllBytes);
}
