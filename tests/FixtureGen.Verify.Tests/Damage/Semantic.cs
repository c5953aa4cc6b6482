using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// Makes one damage of a kind; null where a program has no place for it. Others are the same job's moves as another control reads
/// them, or another job's program for the same setup.
/// </summary>
internal static class Semantic
{
    public static string? Make(
        GoodProgram good,
        SemanticKind kind,
        Random random,
        IReadOnlyList<string> otherControls,
        IReadOnlyList<GoodProgram> others
    )
    {
        Lines lines = new(good.Program.Text);
        string? text = kind switch
        {
            SemanticKind.WrongControl => Pick(otherControls, random),
            SemanticKind.OtherJob => OtherJob(good, Pick([.. others], random)),
            SemanticKind.OlderRevision => Revision(good),
            SemanticKind.SentenceFalse => Sentence(good.Program.Text, random),
            SemanticKind.CutOff => string.Join('\n', lines.All.Take(lines.All.Count * (50 + random.Next(45)) / 100)),
            SemanticKind.InchAsMillimetre => Inch(lines, random),
            SemanticKind.ModalWord => Modal(good.Program.Text, random),
            SemanticKind.CycleWords => Cycle(lines, random),
            _ => Whole(lines, kind, random, good) ?? Section(lines, kind, random, good),
        };
        return text == good.Program.Text ? null : text;
    }

    private static IEnumerable<Match> Matches(string text, string pattern) =>
        Regex.Matches(text, pattern).Cast<Match>();

    private static T? Pick<T>(IReadOnlyList<T> all, Random random)
        where T : class => all.Count == 0 ? null : all[random.Next(all.Count)];

    private static double Either(Random random, double least, double most) =>
        (least + ((most - least) * random.NextDouble())) * (random.Next(2) == 0 ? 1 : -1);

    /// <summary>Another job's program, renumbered as whoever copies it into this one's place would.</summary>
    private static string? OtherJob(GoodProgram good, GoodProgram? other) =>
        other is null || other.Program.Setup != good.Program.Setup || other.Job.Control.Name != good.Job.Control.Name
            ? null
            : other.Program.Text.Replace(
                other.Program.ProgramNumber.ToString(CultureInfo.InvariantCulture),
                good.Program.ProgramNumber.ToString(CultureInfo.InvariantCulture),
                StringComparison.Ordinal
            );

    private static string? Revision(GoodProgram good)
    {
        string now = FormattableString.Invariant($"REV {good.Job.Revision}");
        string old = FormattableString.Invariant($"REV {good.Job.Revision + 1}");
        return good.Program.Text.Replace(now, old, StringComparison.Ordinal);
    }

    /// <summary>One figure of those that people go by.</summary>
    private static string? Sentence(string text, Random random)
    {
        Match[] all =
        [
            .. Matches(
                text,
                @"(?<=[(;][^)\n]*)\d+(?:\.\d+)?(?=\s+(?:KPA|INHG|MAGNETS|BOLTS|NM|MM LONG|TURNS)\b)|(?<=REV )\d+|(?<=MAGNETS )\d+"
            ),
        ];
        if (all.Length == 0)
        {
            return null;
        }
        Match m = all[random.Next(all.Length)];
        double value = double.Parse(m.Value, CultureInfo.InvariantCulture);
        double other = value * (random.Next(2) == 0 ? 3 : 0.3);
        string said = m.Value.Contains('.', StringComparison.Ordinal)
            ? other.ToString("0.0", CultureInfo.InvariantCulture)
            : Math.Max(0, Math.Round(other)).ToString(CultureInfo.InvariantCulture);
        return text[..m.Index] + said + text[(m.Index + m.Length)..];
    }

    private static string? Inch(Lines lines, Random random)
    {
        if (random.Next(2) == 0)
        {
            for (int i = 0; i < lines.All.Count; i++)
            {
                lines.All[i] = Regex.Replace(lines.All[i], @"\bG2([01])\b", m => m.Value == "G20" ? "G21" : "G20");
            }
            return lines.Text;
        }
        double factor = lines.Inch ? 25.4 : 1 / 25.4;
        foreach (int i in lines.Moving(0, lines.All.Count))
        {
            lines.All[i] = Regex.Replace(
                lines.All[i],
                @"[XYZIJR][+-]?\d*\.?\d+|[XYZIJR][+-]?\d+\.",
                m => m.Value[..1] + Lines.Number(double.Parse(m.Value[1..], CultureInfo.InvariantCulture) * factor)
            );
        }
        return lines.Text;
    }

    private static string? Modal(string text, Random random)
    {
        (string Good, string Bad)[] swaps =
        [
            ("G90", "G91"),
            ("G17", "G18"),
            ("G94", "G93"),
            ("G94", "G95"),
            ("G54", "G55"),
            ("G55", "G54"),
            ("G40", "G41 D1"),
            ("G80", "G64"),
            ("G43", "G49"),
            ("G43", "G44"),
            ("G49", "G92 X0. Y0."),
            ("M3", "M4"),
            ("M3", "M5"),
            ("M30", "M99"),
        ];
        (string good, string bad) = swaps[random.Next(swaps.Length)];
        Match[] all = [.. Matches(text, $@"(?<![A-Z0-9(;]){good}(?![0-9.])(?![^(\n]*\))")];
        if (all.Length == 0)
        {
            return null;
        }
        Match m = all[random.Next(all.Length)];
        return text[..m.Index] + bad + text[(m.Index + m.Length)..];
    }

    private static string? Cycle(Lines lines, Random random)
    {
        int[] cycles =
        [
            .. Enumerable.Range(0, lines.All.Count).Where(i => Regex.IsMatch(lines.All[i], @"\bG8[123]\b")),
        ];
        if (cycles.Length == 0)
        {
            return null;
        }
        int at = cycles[random.Next(cycles.Length)];
        string line = lines.All[at];
        double mm = lines.Mm;
        lines.All[at] = random.Next(7) switch
        {
            0 => Lines.With(line, 'R', (Lines.Value(line, 'R') ?? 0) - ((3 + (14 * random.NextDouble())) * mm)),
            // a plate's relief bears a hole that goes deeper
            1 => Lines.With(line, 'Z', (Lines.Value(line, 'Z') ?? 0) + ((1 + (3 * random.NextDouble())) * mm)),
            2 => Regex.Replace(line, @"\s*R[\d.]+", ""),
            3 => Lines.With(line, 'X', (Lines.Value(line, 'X') ?? 0) + (Either(random, 0.5, 20) * mm)),
            4 => Regex.Replace(line, @"\bG8[123]\b", "G85"),
            5 => line + " L0",
            _ => Regex.Replace(line, @"\bG8[123]\b", "G0"),
        };
        return lines.Text;
    }

    private static string? Whole(Lines lines, SemanticKind kind, Random random, GoodProgram good)
    {
        Box2 b = good.Design.Placement.BlankBox;
        (double cx, double cy) = (b.Middle.X * lines.Mm, b.Middle.Y * lines.Mm);
        int end = lines.All.Count;
        switch (kind)
        {
            case SemanticKind.WholeShifted:
                (double dx, double dy) = (Either(random, 0.3, 10) * lines.Mm, Either(random, 0.3, 10) * lines.Mm);
                lines.Move(0, end, (x, y) => (x + dx, y + dy), false);
                return lines.Text;
            case SemanticKind.WholeTurned:
                lines.Move(0, end, Turned(cx, cy, Either(random, 0.3, 180)), false);
                return lines.Text;
            case SemanticKind.WholeMirrored:
                bool arcs = random.Next(2) == 0;
                bool acrossX = random.Next(2) == 0;
                lines.Move(0, end, (x, y) => acrossX ? ((2 * cx) - x, y) : (x, (2 * cy) - y), arcs);
                return lines.Text;
            case SemanticKind.StopDropped:
                return Drop(lines, random, l => Lines.Word(Lines.Code(l), "M0") || Lines.Word(Lines.Code(l), "M1"));
            case SemanticKind.VacuumDropped:
                string on = good.Job.Control.VacuumOn;
                return on.Length == 0 ? null : Drop(lines, random, l => Lines.Word(Lines.Code(l), on));
            default:
                return null;
        }
    }

    private static Func<double, double, (double, double)> Turned(double cx, double cy, double deg)
    {
        (double sin, double cos) = Math.SinCos(deg * Math.PI / 180);
        return (x, y) => (cx + ((x - cx) * cos) - ((y - cy) * sin), cy + ((x - cx) * sin) + ((y - cy) * cos));
    }

    private static string? Drop(Lines lines, Random random, Func<string, bool> which)
    {
        int[] places = [.. Enumerable.Range(0, lines.All.Count).Where(i => which(lines.All[i]))];
        if (places.Length == 0)
        {
            return null;
        }
        lines.All.RemoveAt(places[random.Next(places.Length)]);
        return lines.Text;
    }

    private static string? Section(Lines lines, SemanticKind kind, Random random, GoodProgram good)
    {
        (int From, int To)[] ops = lines.Operations();
        if (ops.Length == 0)
        {
            return null;
        }
        (int from, int to) = ops[random.Next(ops.Length)];
        double x =
            lines
                .Moving(from, to)
                .Select(i => Lines.Value(Lines.Code(lines.All[i]), 'X'))
                .FirstOrDefault(v => v is not null)
            ?? 0;
        double y =
            lines
                .Moving(from, to)
                .Select(i => Lines.Value(Lines.Code(lines.All[i]), 'Y'))
                .FirstOrDefault(v => v is not null)
            ?? 0;
        switch (kind)
        {
            case SemanticKind.SectionShifted:
                (double dx, double dy) = (Either(random, 0.3, 6) * lines.Mm, Either(random, 0.3, 6) * lines.Mm);
                lines.Move(from, to, (px, py) => (px + dx, py + dy), false);
                return lines.Text;
            case SemanticKind.SectionTurned:
                // not about its own first point: that may be the middle of a hole
                lines.Move(from, to, Turned(x + (5 * lines.Mm), y, Either(random, 2, 180)), false);
                return lines.Text;
            case SemanticKind.SectionMirrored:
                bool arcs = random.Next(2) == 0;
                double across = x + (5 * lines.Mm);
                lines.Move(from, to, (px, py) => ((2 * across) - px, py), arcs);
                return lines.Text;
            case SemanticKind.SectionScaled:
                double k = 1 + Either(random, 0.01, 0.08);
                double reach = lines
                    .Moving(from, to)
                    .Max(i => Math.Abs((Lines.Value(Lines.Code(lines.All[i]), 'X') ?? x) - x));
                if (reach * Math.Abs(k - 1) < 0.3 * lines.Mm)
                {
                    // within what the judge allows to be left
                    return null;
                }
                lines.Move(from, to, (px, py) => (x + ((px - x) * k), y + ((py - y) * k)), false);
                return lines.Text;
            case SemanticKind.SectionDropped:
                lines.All.RemoveRange(from, to - from);
                return lines.Text;
            case SemanticKind.SkimLast or SemanticKind.TrimOrder when ops.Length > 1:
                return Later(lines, ops, kind, good);
            case SemanticKind.ToolWrong:
                return WrongTool(lines, from, to, random, good);
            case SemanticKind.SpindleStopsInWork:
                return Inside(lines, from, to, random);
            default:
                return Numbers(lines, from, to, kind, random);
        }
    }

    /// <summary>The first operation of a block after all others, or of a trim the last before the others.</summary>
    private static string? Later(Lines lines, (int From, int To)[] ops, SemanticKind kind, GoodProgram good)
    {
        bool trim = good.Program.Setup == Setup.Trim;
        if (trim != (kind == SemanticKind.TrimOrder))
        {
            return null;
        }
        (int from, int to) = trim ? ops[^1] : ops[0];
        List<string> moved = lines.All.GetRange(from, to - from);
        lines.All.RemoveRange(from, to - from);
        lines.All.InsertRange(trim ? ops[0].From : ops[^1].To - (to - from), moved);
        return lines.Text;
    }

    private static string? WrongTool(Lines lines, int from, int to, Random random, GoodProgram good)
    {
        Match call = Regex.Match(
            string.Join('\n', lines.All.Skip(from).Take(to - from)),
            @"\bT(\d+)\b(?=.*\n(?:.*\n)*.*\bM6)"
        );
        Tool? now = good
            .Job.Tools.Append(good.Job.TrimTool)
            .FirstOrDefault(t => t.Number.ToString(CultureInfo.InvariantCulture) == call.Groups[1].Value);
        Tool[] other = now is null
            ? []
            : [.. good.Job.Tools.Append(good.Job.TrimTool).Where(t => Math.Abs(t.Diameter - now.Diameter) > 0.2)];
        if (other.Length == 0 || !lines.All.Skip(from).Take(to - from).Any(l => Lines.Word(Lines.Code(l), "M6")))
        {
            return null;
        }
        Tool next = other[random.Next(other.Length)];
        for (int i = from; i < to; i++)
        {
            lines.All[i] = Regex.Replace(
                lines.All[i],
                @"\b([TH])" + now!.Number.ToString(CultureInfo.InvariantCulture) + @"\b",
                m => m.Groups[1].Value + next.Number.ToString(CultureInfo.InvariantCulture)
            );
        }
        return lines.Text;
    }

    /// <summary>The spindle stopped while the tool stands in what it cuts.</summary>
    private static string? Inside(Lines lines, int from, int to, Random random)
    {
        int[] cuts =
        [
            .. lines
                .Moving(from, to)
                .Where(i => i + 1 < to && Regex.IsMatch(Lines.Code(lines.All[i]), @"\bG0?[123]\b") && i > from + 10),
        ];
        if (cuts.Length == 0)
        {
            return null;
        }
        lines.All.Insert(cuts[random.Next(cuts.Length)] + 1, "M5");
        return lines.Text;
    }

    private static string? Numbers(Lines lines, int from, int to, SemanticKind kind, Random random)
    {
        double by = (0.3 + (2 * random.NextDouble())) * lines.Mm;
        double factor = 2 + (4 * random.NextDouble());
        bool feeding = false;
        for (int i = from; i < to; i++)
        {
            string line = lines.All[i];
            string code = Lines.Code(line);
            feeding = Regex.IsMatch(code, @"\bG(?:0?[123]|8[123])\b") || (feeding && !Lines.Word(code, "G0"));
            bool moves = !Lines.Home(code) && !code.Contains('H', StringComparison.Ordinal);
            double? z = moves ? Lines.Value(code, 'Z') : null;
            double? f = Lines.Value(code, 'F');
            double? s = Lines.Value(code, 'S');
            lines.All[i] = kind switch
            {
                SemanticKind.SectionDeeper when z is { } h && h > by && feeding => Lines.With(line, 'Z', h - by),
                SemanticKind.SectionHigher when z is { } h && feeding => Lines.With(line, 'Z', h + by),
                SemanticKind.RapidsLowered when z is { } h && !feeding => Lines.With(
                    line,
                    'Z',
                    h - ((3 + by) * lines.Mm) - (2 * by)
                ),
                SemanticKind.SectionFaster when f is { } v => Lines.With(line, 'F', v * factor),
                SemanticKind.SectionSlower when f is { } v => Lines.With(line, 'F', v / (4 * factor)),
                SemanticKind.SpeedWrong when s is { } v => Regex.Replace(
                    line,
                    @"\bS\d+",
                    FormattableString.Invariant($"S{(random.Next(2) == 0 ? v * factor : v / (2 * factor)):0}")
                ),
                SemanticKind.PassDeeper when z is { } h && h > by && feeding && random.Next(4) == 0 => Lines.With(
                    line,
                    'Z',
                    h - by
                ),
                _ => line,
            };
        }
        return lines.Text;
    }
}
