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
        Lengths lengths = Lengths.For(job);
        yield return new(
            "blank",
            "1",
            lengths.Size(job.Blank.Width, job.Blank.Height, design.RawThickness),
            $"{job.Blank.Description}, {job.BlockMaterial.Description}"
        );
        for (int i = 0; i < design.AllCords.Length; i++)
        {
            CordLoop cord = design.AllCords[i];
            yield return new(
                "cord",
                "1",
                lengths.Long(cord.CutLength),
                $"{job.Gasket.Description}, loop J{Figures.Whole(i + 1)}"
            );
        }
        if (design.AllCords.Length > 1)
        {
            yield return new(
                "cord in all",
                "",
                lengths.Long(design.AllCords.Sum(c => c.CutLength)),
                $"grooves {lengths.Long(design.AllCords.Sum(c => c.Length))}"
            );
        }
        string n = Figures.Whole(design.Magnets.Length);
        string disc = lengths.Size(job.Magnet.Diameter, job.Magnet.Thickness);
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
                "jacket " + lengths.Size(job.Magnet.JacketDiameter, job.Magnet.JacketHeight)
            );
        }
        string bolts = Figures.Whole(design.Features.Count(f => f.Kind == FeatureKind.BoltHole));
        yield return new(
            "bolt",
            bolts,
            job.Bolt.Description + SheetProgram.BoltLength(facts),
            Figures.Torque(job.Bolt.TorqueNm)
        );
        yield return new("washer", bolts, lengths.Size(job.Bolt.WasherDiameter, job.Bolt.WasherThickness), "");
        if (job.Pin.BushDiameter > 0 && job.BlockMaterial.IsPlastic)
        {
            yield return new(
                "pin bush",
                "1",
                lengths.Size(job.Pin.BushDiameter, job.Pin.BushLength),
                "pressed and bonded into the round pin hole, flush with the underside"
            );
        }
        int locators = design.Features.Count(f => f.Kind == FeatureKind.LocatorHole);
        if (locators > 0)
        {
            yield return new(
                "locator pin",
                Figures.Whole(locators),
                LocatorGuide.For(job, design) is { } guide
                    ? lengths.Size(job.Rules.LocatorPinDiameter, guide.PinLength)
                    : lengths.Long(job.Rules.LocatorPinDiameter),
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

    /// <summary>Text that a spreadsheet would work out as a formula gets an apostrophe before it.</summary>
    public static string Field(string text)
    {
        string safe = text.Length > 0 && "=+-@\t".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return safe.AsSpan().IndexOfAny("\",\r\n") >= 0
            ? "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
            : safe;
    }
}
