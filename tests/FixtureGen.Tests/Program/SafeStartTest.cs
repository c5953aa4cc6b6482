using System.Text.RegularExpressions;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Toolpaths;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Program;

/// <summary>
/// What must stand between a stop or a tool change and the next motion, through every control; common practice, no source: the
/// safe start again, X and Y at the height of home, and only then Z.
/// </summary>
[Trait("Speed", "Slow")]
public sealed partial class SafeStartTest
{
    public static TheoryData<string> Controls() => [.. DemoShop.Files.List("controls").Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Controls))]
    public void After_every_stop_and_tool_change_the_safe_start_stands_again(string control)
    {
        (Job job, string[] texts) = Programs(control);
        string[] safe =
        [
            .. job.Control.SafeStart.Select(l =>
                l.Replace("{work}", job.Control.WorkOffset, StringComparison.Ordinal).Trim()
            ),
        ];
        int seen = 0;
        foreach (string[] lines in texts.Select(Lines))
        {
            for (int i = 0; i < lines.Length; i++)
            {
                if (!Breaks(lines[i], job.Control))
                {
                    continue;
                }
                string[] until = [.. lines.Skip(i + 1).TakeWhile(l => !MovesInWork(l))];
                if (i + 1 + until.Length == lines.Length)
                {
                    continue; // nothing moves any more
                }
                seen++;
                Assert.All(safe, s => Assert.Contains(s, until));
                string first = lines[i + 1 + until.Length];
                Assert.Matches("[XY]", first);
                Assert.DoesNotContain("Z", first, StringComparison.Ordinal);
                Assert.StartsWith("G0", first, StringComparison.Ordinal);
            }
        }
        Assert.InRange(seen, 7, int.MaxValue);
    }

    [Theory]
    [MemberData(nameof(Controls))]
    public void The_port_is_opened_with_bolts_in_and_the_vacuum_off(string control)
    {
        (Job job, string[] texts) = Programs(control);
        List<string> top = Said(texts.Single(t => t.Contains(" BLOCK TOP", StringComparison.OrdinalIgnoreCase)));
        int bolts = top.FindIndex(l => l.Contains("UNTIL THE BOLTS ARE TIGHT", StringComparison.OrdinalIgnoreCase));
        int stop = top.IndexOf(job.Control.Stop, bolts);
        int port = top.FindIndex(l => l.Contains("PORT - T", StringComparison.OrdinalIgnoreCase));
        Assert.InRange(bolts, 1, stop);
        Assert.InRange(stop, bolts, port);
        int off =
            job.Control.VacuumOff.Length > 0
                ? top.IndexOf(job.Control.VacuumOff, stop)
                : top.FindIndex(bolts, l => l.Contains("VACUUM OFF", StringComparison.OrdinalIgnoreCase));
        Assert.InRange(off, bolts, port);
        Assert.DoesNotContain(job.Control.VacuumOff.Length > 0 ? job.Control.VacuumOff : "-", top[port..]);
    }

    /// <summary>An optional stop is passed over while its switch is off: nobody would count the magnets.</summary>
    [Theory]
    [MemberData(nameof(Controls))]
    public void A_true_stop_has_the_magnets_counted_before_the_trim(string control)
    {
        (Job job, string[] texts) = Programs(control);
        List<string> trim = Said(
            texts.Single(t =>
                t.Contains("REV 1", StringComparison.OrdinalIgnoreCase)
                && t.Contains(" TRIM ", StringComparison.OrdinalIgnoreCase)
            )
        );
        int asked = trim.FindIndex(l => CountsMagnets().IsMatch(l));
        int stop = trim.IndexOf(job.Control.Stop, asked);
        int cut = trim.FindIndex(l => FeedMove().IsMatch(l));
        Assert.Equal(asked + 1, stop);
        Assert.InRange(cut, stop, trim.Count);
        Assert.DoesNotContain(job.Control.OptionalStop, trim);
    }

    private static (Job Job, string[] Texts) Programs(string control)
    {
        (Job own, FixtureDesign design) = DemoDesigns.Of("meter-cradle");
        Job job = own with { Control = DemoShop.Job(DemoShop.PlainJob(control: control)).Control };
        return (
            job,
            [
                .. DemoDesigns
                    .Taken(OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House))
                    .Select(p => DemoDesigns.Taken(ProgramWriter.Write(p, job.Control, job)).Text),
            ]
        );
    }

    private static string[] Lines(string text) => [.. text.Split('\n').Select(l => LineNumber().Replace(l, "").Trim())];

    /// <summary>The lines without their numbers; comment lines that follow each other are one, without their signs.</summary>
    private static List<string> Said(string text)
    {
        List<string> said = [];
        bool comment = false;
        foreach (string line in Lines(text))
        {
            bool now = line.StartsWith('(') || line.StartsWith(';');
            string words = now ? line.Trim('(', ')', ';', ' ') : line;
            if (now && comment)
            {
                said[^1] += " " + words;
            }
            else
            {
                said.Add(words);
            }
            comment = now;
        }
        return said;
    }

    private static bool Breaks(string line, Control control) => line == control.Stop || ToolChange().IsMatch(line);

    /// <summary>A motion other than to a place of the machine.</summary>
    private static bool MovesInWork(string line) =>
        !line.StartsWith('(') && !line.StartsWith(';') && !Machine().IsMatch(line) && Axis().IsMatch(line);

    [GeneratedRegex("LOOK AT THE VACUUM, COUNT [0-9]+ MAGNETS", RegexOptions.IgnoreCase)]
    private static partial Regex CountsMagnets();

    [GeneratedRegex(@"^G0?1\b")]
    private static partial Regex FeedMove();

    [GeneratedRegex(@"^N\d+\s*")]
    private static partial Regex LineNumber();

    [GeneratedRegex(@"\bM0?6\b")]
    private static partial Regex ToolChange();

    [GeneratedRegex(@"\bG(28|30|53)\b")]
    private static partial Regex Machine();

    [GeneratedRegex(@"[XYZ]-?[\d.]")]
    private static partial Regex Axis();
}
