using System.Text;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Papers;

/// <summary>One line of the cut list: what to cut or fetch, how many, what size.</summary>
internal sealed record CutListRow(string What, string Pieces, string Size, string Note);

/// <summary>What one fixture uses up: blank, cords, magnets, fasteners, machine minutes.</summary>
public static class CutList
{
    /// <summary>CSV by RFC 4180, comma and CRLF, UTF-8 text with a header line; numbers with a point.</summary>
    public static string Csv(PaperFacts facts)
    {
        StringBuilder text = new("what,pieces,size,note\r\n");
        foreach (CutListRow row in Rows(facts))
        {
            text.AppendJoin(',', new[] { row.What, row.Pieces, row.Size, row.Note }.Select(Field)).Append("\r\n");
        }
        return text.ToString();
    }

    internal static IEnumerable<CutListRow> Rows(PaperFacts facts)
    {
        Job job = facts.Job;
        FixtureDesign design = facts.Design;
        yield return new(
            "blank",
            "1",
            $"{Figures.Mm(job.Blank.Width)} x {Figures.Mm(job.Blank.Height)} x {Figures.Mm(design.RawThickness)} mm",
            $"{job.Blank.Description}, {job.BlockMaterial.Description}"
        );
        for (int i = 0; i < design.AllCords.Length; i++)
        {
            CordLoop cord = design.AllCords[i];
            yield return new(
                "cord",
                "1",
                $"{Figures.Mm(cord.CutLength)} mm",
                $"{job.Gasket.Description}, loop J{Figures.Whole(i + 1)}"
            );
        }
        if (design.AllCords.Length > 1)
        {
            yield return new(
                "cord in all",
                "",
                $"{Figures.Mm(design.AllCords.Sum(c => c.CutLength))} mm",
                $"grooves {Figures.Mm(design.AllCords.Sum(c => c.Length))} mm"
            );
        }
        string n = Figures.Whole(design.Magnets.Length);
        string disc = $"{Figures.Mm(job.Magnet.Diameter)} x {Figures.Mm(job.Magnet.Thickness)} mm";
        if (design.Magnets.Length > 0)
        {
            yield return new(
                "magnet in the block",
                n,
                disc,
                $"{job.Magnet.Description} {job.Magnet.Grade}, north up, glued"
            );
            yield return new(
                "magnet in a jacket",
                n,
                disc,
                $"jacket {Figures.Mm(job.Magnet.JacketDiameter)} x {Figures.Mm(job.Magnet.JacketHeight)} mm"
            );
        }
        string bolts = Figures.Whole(design.Features.Count(f => f.Kind == FeatureKind.BoltHole));
        yield return new(
            "bolt",
            bolts,
            job.Bolt.Description + SheetProgram.BoltLength(facts),
            Figures.Torque(job.Bolt.TorqueNm)
        );
        yield return new(
            "washer",
            bolts,
            $"{Figures.Mm(job.Bolt.WasherDiameter)} x {Figures.Mm(job.Bolt.WasherThickness)} mm",
            ""
        );
        if (job.Pin.BushDiameter > 0 && job.BlockMaterial.IsPlastic)
        {
            yield return new(
                "pin bush",
                "1",
                $"{Figures.Mm(job.Pin.BushDiameter)} x {Figures.Mm(job.Pin.BushLength)} mm",
                "pressed into the round pin hole"
            );
        }
        int locators = design.Features.Count(f => f.Kind == FeatureKind.LocatorHole);
        if (locators > 0)
        {
            yield return new(
                "locator pin",
                Figures.Whole(locators),
                $"{Figures.Mm(job.Rules.LocatorPinDiameter)} mm{PinLength(facts)}",
                "through the shell's scrap into the block"
            );
        }
        foreach (ProgramVerdict program in facts.Verdict.Programs)
        {
            string pieces = program.Setup == Setup.Trim ? "each part" : "1";
            yield return new(
                "machine, " + Figures.Setup(program.Setup),
                pieces,
                $"{Figures.Minutes(program.Minutes)} min",
                program.FileName
            );
        }
    }

    private static string PinLength(PaperFacts facts) =>
        LocatorGuide.For(facts.Job, facts.Design) is { } guide ? $" x {Figures.Mm(guide.PinLength)} mm" : "";

    /// <summary>Text that a spreadsheet would work out as a formula gets an apostrophe before it.</summary>
    public static string Field(string text)
    {
        string safe = text.Length > 0 && "=+-@\t".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return safe.AsSpan().IndexOfAny("\",\r\n") >= 0
            ? "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
            : safe;
    }
}
