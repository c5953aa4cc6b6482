using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>A good program with what it is judged against.</summary>
internal sealed record GoodProgram(Job Job, FixtureDesign Design, ProgramText Program, Part? Drawing = null);

/// <summary>One row of the damage table.</summary>
internal sealed class Row
{
    public int Tried { get; set; }

    public int Nothing { get; set; }

    public int Small { get; set; }

    public int Caught { get; set; }

    /// <summary>Of the caught: a finding stands within three lines of the edit.</summary>
    public int Near { get; set; }
}

/// <summary>Edits good programs one slip at a time, a given number of real ones, and counts which the judge lets through.</summary>
internal sealed class DamageRun(IReadOnlyList<GoodProgram> programs, Limits limits)
{
    private const int NearLines = 3;

    public SortedDictionary<DamageKind, Row> Rows { get; } = [];

    public List<string> Misses { get; } = [];

    public List<(GoodProgram Program, Edit Edit)> Missed { get; } = [];

    public List<string> SmallOnes { get; } = [];

    public int Real => Rows.Values.Sum(r => r.Tried - r.Nothing - r.Small);

    public int Caught => Rows.Values.Sum(r => r.Caught);

    public int Small => Rows.Values.Sum(r => r.Small);

    public double Share => Real == 0 ? 0 : (double)Caught / Real;

    public void Go(int count, int seed)
    {
        Random random = new(seed);
        DamageKind[] kinds = Enum.GetValues<DamageKind>();
        List<Deed>?[] good = [.. programs.Select(p => PlainReader.Read(p.Program.Text, p.Job.Control))];
        for (int i = 0; i < count; )
        {
            int which = random.Next(programs.Count);
            Edit? edit = Damager.Make(programs[which].Program.Text, kinds[random.Next(kinds.Length)], random);
            if (edit is not null)
            {
                i += Try(programs[which], good[which], edit) ? 1 : 0;
            }
        }
    }

    public string Table()
    {
        StringBuilder text = new();
        text.AppendLine("edit               tried  nothing  too small  caught  missed  within 3 lines");
        foreach ((DamageKind kind, Row r) in Rows)
        {
            int missed = r.Tried - r.Nothing - r.Small - r.Caught;
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"{kind, -18} {r.Tried, 5} {r.Nothing, 8} {r.Small, 10} {r.Caught, 7} {missed, 7} {r.Near, 9}"
            );
        }
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"caught {Caught} of {Real} real edits, {100 * Share:0.00} %; {Small} too small of {Real + Small}"
        );
        foreach (string miss in Misses)
        {
            text.Append("missed ").AppendLine(miss);
        }
        foreach (string small in SmallOnes)
        {
            text.Append("set aside by size ").AppendLine(small);
        }
        return text.ToString();
    }

    /// <summary>True when the edit counts as real.</summary>
    private bool Try(GoodProgram good, List<Deed>? deeds, Edit edit)
    {
        Row row = Rows.TryGetValue(edit.Kind, out Row? known) ? known : Rows[edit.Kind] = new Row();
        row.Tried++;
        string where = FormattableString.Invariant($"{edit.Kind} {good.Program.FileName}:{edit.Line} {edit.What}");
        Size size = Sizing.Of(
            deeds,
            PlainReader.Read(edit.Text, good.Job.Control),
            good.Job,
            good.Program.Setup,
            limits
        );
        if (size != Size.Real)
        {
            row.Nothing += size == Size.Nothing ? 1 : 0;
            row.Small += size == Size.BelowTolerance ? 1 : 0;
            if (size == Size.BelowTolerance)
            {
                SmallOnes.Add(where);
            }
            return false;
        }
        ProgramText program = good.Program with { Text = edit.Text };
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(good.Job, good.Design, [program], limits) { Drawing = good.Drawing }
        );
        ImmutableArray<Finding> findings = [.. result.Findings];
        bool near = findings.Any(f => f.Line is { } line && Math.Abs(line - edit.Line) <= NearLines);
        if (!result.Ok || near)
        {
            row.Caught++;
            row.Near += near ? 1 : 0;
        }
        else
        {
            Misses.Add(where);
            Missed.Add((good, edit));
        }
        return true;
    }
}
