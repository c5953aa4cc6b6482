using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>The shop's files as forms: their reader's own keys, edits that keep the text, trials that change nothing, saves that lose nothing.</summary>
public sealed class ShopDeskTest
{
    private const string Job = "label-clip";

    [Fact]
    public async Task Every_value_of_every_shop_file_is_a_field_and_setting_it_to_itself_changes_nothing()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonNode shop = (await page.AskAsync("shop", null)).Answer;
        int files = 0;
        int values = 0;
        foreach (JsonNode? kind in shop["kinds"]!.AsArray())
        {
            foreach (JsonNode? entry in kind!["entries"]!.AsArray())
            {
                (string of, string name) = ((string)kind["kind"]!, (string)entry!["name"]!);
                JsonNode file = await ReadAsync(page, of, name);
                string text = (string)file["text"]!;
                JsonNode[] stated = [.. file["keys"]!.AsArray().Where(k => k!["field"]!["stated"] is not null)!];
                int lines = text.Split('\n').Count(l => l.Contains('=') && !l.TrimStart().StartsWith('#'));
                Assert.True(
                    lines == stated.Length,
                    FormattableString.Invariant($"{of}/{name}: {lines} values, {stated.Length} fields")
                );
                Assert.Equal(0, (int)entry["errors"]!);
                foreach (JsonNode key in stated.Where((_, i) => i % 7 == files % 7))
                {
                    string literal = (string)key["field"]!["stated"]!;
                    string typed = literal.StartsWith('"') ? (string)JsonNode.Parse(literal)! : literal;
                    JsonNode after = await EditAsync(page, file, "set", (string)key["field"]!["path"]!, typed);
                    Assert.Equal(text, (string)after["text"]!);
                    values++;
                }
                files++;
            }
        }
        Assert.Equal(Directory.GetFiles(Templates(page), "*.toml", SearchOption.AllDirectories).Length, files);
        Assert.True(values > 100);
    }

    [Fact]
    public async Task A_value_is_checked_by_the_reader_and_only_it_changes()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonNode rack = await ReadAsync(page, "tools", "rack");
        string text = (string)rack["text"]!;
        JsonNode wide = await EditAsync(page, rack, "set", "tool[2].diameter", "99");
        JsonNode finding = wide["findings"]!.AsArray().First(f => (string)f!["severity"]! == "error")!;
        Assert.Equal("toml-out-of-range", (string)finding["code"]!);
        int line = (int)
            wide["keys"]!.AsArray().First(k => (string)k!["field"]!["path"]! == "tool[2].diameter")!["line"]!;
        Assert.Equal(line, (int)finding["line"]!);
        Assert.Equal(
            text.Replace("0.1875", "99", StringComparison.Ordinal),
            ((string)wide["text"]!).Replace("shank_diameter = 0.1875", "shank_diameter = 99", StringComparison.Ordinal)
        );
        JsonNode added = await EditAsync(page, rack, "set", "tool[2].run_out", "0.01 mm");
        Assert.Contains(
            "run_out = \"0.01 mm\"\n\n[[tool]]\nname = \"mill-1-8\"",
            (string)added["text"]!,
            StringComparison.Ordinal
        );
        JsonNode back = await EditAsync(page, added, "leave-out", "tool[2].run_out", null);
        Assert.Equal(text, (string)back["text"]!);
    }

    [Fact]
    public async Task A_row_is_copied_with_what_stands_below_it_and_taken_out_again()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonNode rack = await ReadAsync(page, "tools", "rack");
        string[] rows = [.. rack["rows"]!.AsArray().Select(r => (string)r!)];
        string engraver = rows.First(r => r.Contains("].chip_load", StringComparison.Ordinal)).Split('.')[0];
        JsonNode more = await EditAsync(page, rack, "copy", engraver, null);
        Assert.Equal(
            rows.Length + rows.Count(r => r.StartsWith(engraver, StringComparison.Ordinal)),
            more["rows"]!.AsArray().Count
        );
        Assert.Contains("Two tools are named", more["findings"]!.ToJsonString(), StringComparison.Ordinal);
        string last = more["rows"]!.AsArray().Select(r => (string)r!).Last(r => !r.Contains('.'));
        JsonNode less = await EditAsync(page, more, "take-out", last, null);
        Assert.Equal(((string)rack["text"]!).TrimEnd(), ((string)less["text"]!).TrimEnd());
        Assert.Equal(rows, less["rows"]!.AsArray().Select(r => (string)r!));
    }

    [Fact]
    public async Task A_save_keeps_line_ends_mark_and_link_and_never_writes_over_another_file()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        string path = Path.Combine(Templates(page), "blanks", "hdpe-8-5.toml");
        string real = Path.Combine(page.Library.Folder, "stock.toml");
        string crlf = File.ReadAllText(path).Replace("\n", "\r\n", StringComparison.Ordinal);
        File.WriteAllText(real, crlf, new UTF8Encoding(true));
        File.Delete(path);
        File.CreateSymbolicLink(path, real);
        JsonNode blank = await ReadAsync(page, "blanks", "hdpe-8-5");
        JsonNode thin = await EditAsync(page, blank, "set", "thickness", "0.5");
        (HttpStatusCode status, _) = await SaveAsync(page, blank, (string)thin["text"]!);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.NotNull(new FileInfo(path).LinkTarget);
        byte[] written = File.ReadAllBytes(real);
        Assert.Equal(Encoding.UTF8.GetPreamble(), written[..3]);
        string after = File.ReadAllText(real);
        Assert.Equal(crlf.Split("\r\n").Length, after.Split("\r\n").Length);
        Assert.Equal(after.Split('\n').Length, after.Split("\r\n").Length);
        string changed = Assert.Single(after.Split("\r\n").Except(crlf.Split("\r\n")));
        Assert.StartsWith("thickness = 0.5", changed, StringComparison.Ordinal);

        (status, JsonNode answer) = await SaveAsync(page, blank, (string)thin["text"]! + "# once more\r\n");
        Assert.Equal(HttpStatusCode.Conflict, status);
        Assert.Contains("nothing was written", (string)answer["message"]!, StringComparison.Ordinal);
        JsonNode now = await ReadAsync(page, "blanks", "hdpe-8-5");
        (status, answer) = await SaveAsync(page, now, after.Replace("0.5", "9000", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.NotEmpty(answer["findings"]!.AsArray());
        Assert.Equal(after, File.ReadAllText(real));
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_is_mended_in_steps_and_a_copy_gets_a_name_of_its_own()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        string path = Path.Combine(Templates(page), "magnets", "disc-10x3.toml");
        string good = File.ReadAllText(path);
        File.WriteAllText(
            path,
            good.Replace("plating", "platting", StringComparison.Ordinal)
                .Replace("source", "sourse", StringComparison.Ordinal)
        );
        JsonNode broken = await ReadAsync(page, "magnets", "disc-10x3");
        Assert.NotEmpty(broken["findings"]!.AsArray());
        string half = ((string)broken["text"]!).Replace("platting", "plating", StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await SaveAsync(page, broken, half)).Status);
        JsonObject copy = Body("magnets", "disc-10x3", good);
        (copy["hash"], copy["new"]) = ("", true);
        Assert.Equal(HttpStatusCode.Conflict, (await page.AskAsync("shop-save", copy.ToJsonString())).Status);
        foreach (string name in new[] { "../disc", "Disc", "a/b", "", ".x", new string('a', 61) })
        {
            copy["name"] = name;
            Assert.Equal(HttpStatusCode.BadRequest, (await page.AskAsync("shop-save", copy.ToJsonString())).Status);
        }
        copy["name"] = "disc-10x3-b";
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("shop-save", copy.ToJsonString())).Status);
        Assert.Equal(good, File.ReadAllText(Path.Combine(Templates(page), "magnets", "disc-10x3-b.toml")));
    }

    /// <summary>What a trial tells is what <c>regenerate</c> says once the file is really so.</summary>
    [Fact]
    public async Task A_trial_tells_what_a_regeneration_would_and_writes_nothing()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        Assert.Equal(0, Cli.Run(page.Library.Folder, "regenerate", ".").Exit);
        JsonNode rack = await ReadAsync(page, "tools", "rack");
        JsonNode slow = await EditAsync(page, rack, "set", "tool[0].max_rpm", "9000");
        string path = Path.Combine(Templates(page), "tools", "rack.toml");
        string before = File.ReadAllText(path);
        JsonObject body = Body("tools", "rack", (string)slow["text"]!);
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("shop-trial", body.ToJsonString())).Status);
        JsonNode run;
        do
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
            run = (await page.AskAsync("run", null)).Answer;
        } while ((string)run["state"]! != "ended");
        Assert.Equal("tools/rack", (string)run["with"]!);
        Assert.Equal(before, File.ReadAllText(path));
        JsonNode tried = Assert.Single(run["changes"]!.AsArray())!;
        File.WriteAllText(path, (string)slow["text"]!);
        JsonNode told = Cli.Run(page.Library.Folder, "regenerate", ".", "--dry-run", "--json").Json["jobs"]![0]!;
        Assert.Equal("templates/tools/rack.toml changed", (string)tried["why"]!);
        Assert.Equal((string)told["why"]!, (string)tried["why"]!);
        Assert.Equal(told["reload"]!.ToJsonString(), tried["reload"]!.ToJsonString());
        Assert.NotEmpty(tried["reload"]!.AsArray());
    }

    [Fact]
    public async Task Used_by_tells_names_from_choices()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonNode plate = await ReadAsync(page, "plates", "master");
        JsonNode user = Assert.Single(plate["usedBy"]!.AsArray())!;
        Assert.Equal((Job + ".toml", true), ((string)user["job"]!, (bool)user["named"]!));
        Assert.Empty((await ReadAsync(page, "plates", "older"))["usedBy"]!.AsArray());
    }

    private static string Templates(PageServer page) => Path.Combine(page.Library.Folder, "templates");

    private static JsonObject Body(string kind, string name, string text) =>
        new()
        {
            ["kind"] = kind,
            ["name"] = name,
            ["text"] = text,
        };

    private static async Task<JsonNode> ReadAsync(PageServer page, string kind, string name)
    {
        (HttpStatusCode status, JsonNode answer) = await page.AskAsync(
            "shop-file",
            null,
            query: $"&kind={kind}&name={name}"
        );
        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        return answer;
    }

    private static async Task<JsonNode> EditAsync(
        PageServer page,
        JsonNode file,
        string act,
        string path,
        string? value
    )
    {
        JsonObject body = Body((string)file["kind"]!, (string)file["name"]!, (string)file["text"]!);
        body["edit"] = new JsonObject
        {
            ["act"] = act,
            ["path"] = path,
            ["value"] = value,
        };
        (HttpStatusCode status, JsonNode answer) = await page.AskAsync("shop-edit", body.ToJsonString());
        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        return answer;
    }

    private static async Task<(HttpStatusCode Status, JsonNode Answer)> SaveAsync(
        PageServer page,
        JsonNode file,
        string text
    )
    {
        JsonObject body = Body((string)file["kind"]!, (string)file["name"]!, text);
        (body["hash"], body["new"]) = ((string)file["hash"]!, false);
        return await page.AskAsync("shop-save", body.ToJsonString());
    }
}
