using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// Damages good programs in ways that mean something and counts what the judge refuses. What does the very same as before, by the
/// plain reader that shares nothing with the judge, is set aside.
/// </summary>
internal sealed class SemanticRun(
    IReadOnlyList<GoodProgram> programs,
    Func<GoodProgram, IReadOnlyList<string>> otherControls,
    Limits limits
)
{
    private readonly SortedDictionary<SemanticKind, int[]> _rows = [];

    public List<(string Name, string Text, string Told)> Misses { get; } = [];

    public int Tried => _rows.Values.Sum(r => r[0] - r[1]);

    public int Refused => _rows.Values.Sum(r => r[2]);

    public void Go(int count, int seed)
    {
        Random random = new(seed);
        SemanticKind[] kinds = Enum.GetValues<SemanticKind>();
        for (int i = 0; i < count; )
        {
            GoodProgram good = programs[random.Next(programs.Count)];
            SemanticKind kind = kinds[random.Next(kinds.Length)];
            GoodProgram[] others =
            [
                .. programs.Where(p => p.Job.Name != good.Job.Name && p.Program.Setup == good.Program.Setup),
            ];
            if (Semantic.Make(good, kind, random, otherControls(good), others) is { } text)
            {
                i += Try(good, kind, text) ? 1 : 0;
            }
        }
    }

    public string Table()
    {
        StringBuilder text = new();
        text.AppendLine("damage               tried  the same  refused  passed");
        foreach ((SemanticKind kind, int[] r) in _rows)
        {
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"{kind, -20} {r[0], 5} {r[1], 9} {r[2], 8} {r[0] - r[1] - r[2], 7}"
            );
        }
        text.AppendLine(CultureInfo.InvariantCulture, $"refused {Refused} of {Tried}");
        foreach ((string name, _, string told) in Misses)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"passed {name} {told}");
        }
        return text.ToString();
    }

    private bool Try(GoodProgram good, SemanticKind kind, string text)
    {
        int[] row = _rows.TryGetValue(kind, out int[]? known) ? known : _rows[kind] = new int[3];
        row[0]++;
        bool words = kind is SemanticKind.SentenceFalse or SemanticKind.OlderRevision or SemanticKind.StopDropped;
        Size size = words
            ? Size.Real
            : Sizing.Of(
                PlainReader.Read(good.Program.Text, good.Job.Control),
                PlainReader.Read(text, good.Job.Control),
                good.Job,
                good.Program.Setup,
                limits
            );
        if (size != Size.Real)
        {
            row[1]++;
            return false;
        }
        ProgramText program = good.Program with { Text = text };
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(good.Job, good.Design, [program], limits) { Drawing = good.Drawing }
        );
        if (!result.Ok)
        {
            row[2]++;
            return true;
        }
        string told = string.Join(' ', result.Findings.Select(f => FormattableString.Invariant($"{f.Code}:{f.Line}")));
        Misses.Add((FormattableString.Invariant($"{Misses.Count:00}.{kind}.{good.Program.FileName}"), text, told));
        return true;
    }
}
