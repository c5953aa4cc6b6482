using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Every sentence about chains and loops. Lengths are in the drawing's mm, or its own units while none is known.</summary>
internal static class ChainFindings
{
    /// <summary>Wider than this, mm, and than this part of the chain's length a gap is a missing edge, not a slip of the pen.</summary>
    private const double Slip = 1;
    private const double SlipOfLength = 0.02;

    private const int MostPlaces = 40;

    /// <summary>Every place, the widest first.</summary>
    public static Repair GapsJoined(List<(double Gap, Point2 At)> gaps)
    {
        List<(double Gap, Point2 At)> widest = [.. gaps.AsEnumerable().Reverse()];
        string others = string.Join(
            ", ",
            widest
                .Skip(1)
                .Take(MostPlaces)
                .Select(g => DxfFindings.Text($"{g.Gap:0.######} at ({g.At.X:0.###}, {g.At.Y:0.###})"))
        );
        string more =
            (others.Length > 0 ? "; the others " + others : "")
            + (gaps.Count > MostPlaces + 1 ? DxfFindings.Text($" and {gaps.Count - MostPlaces - 1} more") : "");
        return new Repair(
            "gap-joined",
            DxfFindings.Text(
                $"{gaps.Count} gaps joined, the widest {widest[0].Gap:0.######} at ({widest[0].At.X:0.###}, {widest[0].At.Y:0.###}){more}"
            ),
            gaps.Count
        );
    }

    public static Repair DrawnTwice(int count) =>
        new("drawn-twice", DxfFindings.Text($"{count} curves or parts of curves drawn twice, one of each kept"), count);

    public static Repair SpikesRemoved(int count) =>
        new("spike-removed", DxfFindings.Text($"{count} spikes (out and back on one line) removed"), count);

    public static Repair ShortRemoved(int count) =>
        new("short-removed", DxfFindings.Text($"{count} pieces of no length removed"), count);

    public static Repair FlatRemoved(int count) =>
        new("flat-removed", DxfFindings.Text($"{count} closed curves without area removed"), count);

    public static Repair OddlyWritten(string what, int count) =>
        new("written-oddly", DxfFindings.Text($"{count} times: {what}"), count);

    public static Finding OpenOutline(string file, OpenChain chain, double? nearest, string unit)
    {
        Point2 from = chain.Path.Start;
        Point2 to = chain.Path.End;
        string other =
            nearest is { } n && n < chain.GapMm
                ? DxfFindings.Text($"; the nearest other end is {n:0.###} {unit} away")
                : "";
        return new Finding(
            "outline-open",
            Severity.Warning,
            Place(file, from),
            DxfFindings.Text(
                $"A chain of length {chain.LengthMm:0.###} {unit} on layer '{chain.Layer}' stays open from ({from.X:0.###}, {from.Y:0.###}) to ({to.X:0.###}, {to.Y:0.###}), gap {chain.GapMm:0.###} {unit}{other}."
            ),
            Overshoot.Find(chain.Path) is { } over
                    ? DxfFindings.Text(
                        $"trim both ends at ({over.At.X:0.###}, {over.At.Y:0.###}), where they cross: they run {over.First:0.###} and {over.Last:0.###} {unit} past it"
                    )
                : Math.Min(chain.GapMm, nearest ?? chain.GapMm) <= Math.Max(Slip, SlipOfLength * chain.LengthMm)
                    ? "draw the two ends to one point (an end snap does it)"
                : "draw the edge that is missing, or delete the curve where it is no edge of the part, or put it on a layer that the job ignores"
        )
        {
            At = from,
        };
    }

    /// <summary>All centre lines as one finding at the first.</summary>
    public static Finding CentreLines(string file, List<(OpenChain Chain, Point2 Middle)> lines, string unit)
    {
        (OpenChain chain, Point2 middle) = lines[0];
        return new Finding(
            "centre-line",
            Severity.Warning,
            Place(file, chain.Path.Start),
            DxfFindings.Text(
                $"{lines.Count} straight lines, the first of {chain.LengthMm:0.###} {unit} on layer '{chain.Layer}', run through the middle of a closed curve, there ({middle.X:0.###}, {middle.Y:0.###}): they are taken for centre lines and not used."
            ),
            "nothing to do if they are; draw centre lines on a layer of their own and they are not mentioned"
        )
        {
            At = chain.Path.Start,
        };
    }

    /// <summary>All stubs as one finding at the first, with the other places.</summary>
    public static Finding Stubs(string file, List<(OpenChain Chain, Point2 Foot)> stubs, string unit)
    {
        (OpenChain chain, Point2 at) = stubs[0];
        string others = string.Concat(
            stubs.Skip(1).Take(MostPlaces).Select(s => DxfFindings.Text($", ({s.Foot.X:0.###}, {s.Foot.Y:0.###})"))
        );
        return new Finding(
            "stub",
            Severity.Warning,
            Place(file, at),
            DxfFindings.Text(
                $"{stubs.Count} stubs, the longest of {chain.LengthMm:0.###} {unit} on layer '{chain.Layer}', hang on closed curves at ({at.X:0.###}, {at.Y:0.###}){others} and are not used."
            ),
            "trim them off in the drawing, and see in the preview that the right way round was taken"
        )
        {
            At = at,
        };
    }

    public static Finding MoreOpen(string file, int count) =>
        new(
            "outline-open",
            Severity.Warning,
            file,
            DxfFindings.Text($"{count} more chains stay open."),
            "put notes and centre lines on a layer of their own"
        );

    public static Finding Junction(string file, Point2 at) =>
        new(
            "junction",
            Severity.Warning,
            Place(file, at),
            DxfFindings.Text($"More than two curves meet at ({at.X:0.###}, {at.Y:0.###})."),
            "trim or delete the one that is not the outline"
        )
        {
            At = at,
        };

    public static Finding EndOnCurve(string file, Point2 at) =>
        new(
            "junction",
            Severity.Warning,
            Place(file, at),
            DxfFindings.Text($"A curve ends in the middle of another at ({at.X:0.###}, {at.Y:0.###})."),
            "trim or delete the one that is not the outline"
        )
        {
            At = at,
        };

    public static Finding CrossesItself(string file, DrawnLoop loop)
    {
        string places = string.Join(
            ", ",
            loop.Crossings.Take(4).Select(p => DxfFindings.Text($"({p.X:0.###}, {p.Y:0.###})"))
        );
        string more = loop.Crossings.Length > 4 ? DxfFindings.Text($" and {loop.Crossings.Length - 4} more") : "";
        return new Finding(
            "loop-crosses-itself",
            Severity.Warning,
            Place(file, loop.Crossings[0]),
            $"The loop on layer '{loop.Layer}' crosses or touches itself at {places}{more}.",
            "trim the curves where they cross"
        )
        {
            At = loop.Crossings[0],
        };
    }

    public static Finding MoreCrossings(string file, int count) =>
        new(
            "loop-crosses-itself",
            Severity.Warning,
            file,
            DxfFindings.Text($"{count} more loops cross or touch themselves."),
            "trim the curves where they cross"
        );

    public static Finding LoopsCross(string file, Point2 at, int more) =>
        new(
            "loops-cross",
            Severity.Warning,
            Place(file, at),
            DxfFindings.Text($"Two loops cross or touch at ({at.X:0.###}, {at.Y:0.###}) and at {more} more places."),
            "move or trim one of them"
        )
        {
            At = at,
        };

    public static Finding Tangled(string file) =>
        new(
            "drawing-tangled",
            Severity.Error,
            file,
            "So many curves lie over each other, or within a gap that is joined, that not all could be compared.",
            "keep the part's outline and delete the rest of the drawing"
        );

    /// <summary>
    /// The findings with their places as the drawing program shows them: in mm, and before that in the drawing's unit where
    /// it is another. Unchanged while no unit is known.
    /// </summary>
    public static IEnumerable<Finding> AsDrawn(IEnumerable<Finding> findings, string file, LengthUnit? unit) =>
        unit is not { } known
            ? findings
            : findings.Select(f =>
                f.At is { } at && f.Where == Place(file, at) ? f with { Where = Drawn(f.Where, at, known, file) } : f
            );

    private static string Drawn(string where, Point2 at, LengthUnit unit, string file)
    {
        double mm = DxfUnits.Millimetres(unit);
        return unit == LengthUnit.Millimetre
            ? where + " mm"
            : DxfFindings.Text(
                $"{Place(file, new(at.X / mm, at.Y / mm))} {DxfUnits.Name(unit)}, ({at.X:0.###}, {at.Y:0.###}) mm"
            );
    }

    public static string Place(string file, Point2 at) => DxfFindings.Text($"{file} at ({at.X:0.###}, {at.Y:0.###})");
}
