using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Labels;

/// <summary>What keeps the label and the drawing's texts from being engraved; lengths in mm.</summary>
internal static class LabelFindings
{
    public static Finding NoEngraver() =>
        new(
            "no-engraver",
            Severity.Error,
            "tools",
            "no engraver is in the tools, so the block cannot be labelled",
            "add an engraver"
        );

    public static Finding NoLetterFor(string text, IReadOnlyList<char> unknown) =>
        new(
            "label-letter",
            Severity.Error,
            "label",
            $"the label '{text}' has characters that cannot be engraved: {string.Join(' ', unknown)}",
            "use letters, digits and plain signs in the title and fixture id"
        );

    public static Finding LabelSmaller(double height, double wanted) =>
        new(
            "label-smaller",
            Severity.Note,
            "label",
            $"the label is engraved {Mm(height)} high; at {Mm(wanted)} it finds no room",
            "nothing to do; a larger blank gives room"
        );

    public static Finding NoRoomForLabel(string text, double height, double width) =>
        new(
            "label-no-room",
            Severity.Error,
            "label",
            $"no free rectangle beside the part takes the label '{text}' ({Mm(width)} in one line of {Mm(height)}, or broken into lines)",
            "shorten the title, move the part towards an edge, or take a larger blank"
        );

    public static Finding TextTooSmall(string where, EngraveMark text, double least) =>
        new(
            "text-too-small",
            Severity.Error,
            where,
            $"letters {Mm(text.Height)} high are {Mm(least - text.Height)} too low for the engraver: their strokes would run together",
            $"draw the text at least {Mm(least)} high, or engrave with a finer point or less deep"
        )
        {
            At = text.At,
        };

    public static Finding TextOverEdge(string where, Point2 at) =>
        new(
            "text-over-edge",
            Severity.Error,
            $"{where} at {Place(at)}",
            "a letter leaves the part: it would be cut beside the outline or over a cutout",
            "move the text, draw it smaller or break it"
        )
        {
            At = at,
        };
}
