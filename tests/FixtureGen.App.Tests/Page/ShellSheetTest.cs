using System.Net;
using System.Net.Http.Headers;
using System.Runtime.InteropServices;
using System.Text.Json.Nodes;
using FixtureGen.App.Page.Play;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>The shell of the play-back, cut by the trim program.</summary>
public sealed class ShellSheetTest
{
    private const string Job = "pruner-sheath";

    /// <summary>
    /// What is cut through is the strip that the cutter's disc sweeps along the finished edge, area L D + pi D^2 for a closed edge of
    /// length L (Steiner's formula for parallel sets, twice), less the bridges that tabs leave and more by the way in and out.
    /// </summary>
    [Fact]
    public async Task The_trim_cuts_a_strip_of_its_cutters_width_along_the_edge()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        Assert.Equal(0, Cli.Run(page.Library.Folder, "make", page.Library.Job(Job)).Exit);
        byte[] program = File.ReadAllBytes(Path.Combine(page.Library.Out(Job), Job + ".trim.nc"));
        JsonNode report = JsonNode.Parse(File.ReadAllText(Path.Combine(page.Library.Out(Job), Job + ".report.json")))!;
        float[] none = await ShellAsync(page, program, 0);
        Assert.DoesNotContain(ShellSheet.Gone, none);
        float[] cut = await ShellAsync(page, program, program.Count(b => b == '\n'));
        JsonNode state = (await page.AskAsync("state", null)).Answer;
        string cutter = (string)state["settings"]!.AsArray().First(s => (string)s!["key"]! == "cutter")!["choice"]!;
        Assert.StartsWith("trim-1-8", cutter, StringComparison.Ordinal);
        const double d = 25.4 / 8;
        double edge = (double)report["part"]!["perimeterMm"]!;
        double expected = (edge * d) + (Math.PI * d * d);
        double gone = 0.25 * cut.Count(z => z == ShellSheet.Gone);
        Assert.InRange(gone / expected, 0.85, 1.1);
    }

    /// <summary>The judge broke on a program without a line, which is also what is played before the first.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("%")]
    [InlineData("\n\n")]
    public void A_program_without_a_line_is_refused_and_no_fault_of_ours(string text)
    {
        using TempLibrary library = new("label-clip");
        string program = Path.Combine(library.Folder, "label-clip.trim.nc");
        File.WriteAllText(program, text);
        Ran ran = Cli.Run(library.Folder, "verify", library.Job("label-clip"), program, "--setup", "trim");
        Assert.True(ran.Exit == 1, ran.Error);
    }

    /// <summary>The shell's heights: what follows the block's.</summary>
    private static async Task<float[]> ShellAsync(PageServer page, byte[] program, int line)
    {
        using HttpClient client = new();
        using ByteArrayContent body = new(program);
        body.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        Uri address = new(
            page.Address,
            FormattableString.Invariant($"/api/carved{page.Address.Query}&name={Job}.trim.nc&setup=trim&line={line}")
        );
        using HttpResponseMessage answer = await client.PostAsync(address, body, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        byte[] bytes = await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
        float[] numbers = MemoryMarshal.Cast<byte, float>(bytes).ToArray();
        int cells = (int)(numbers[0] * numbers[1]);
        Assert.Equal(6 + (2 * cells), numbers.Length);
        return numbers[(6 + cells)..];
    }
}
