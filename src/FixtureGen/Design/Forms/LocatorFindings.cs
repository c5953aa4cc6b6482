using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Forms;

/// <summary>What is wrong with how the shell finds its place: forms and their pockets, pins, by hand; lengths in mm.</summary>
internal static class LocatorFindings
{
    public static Finding FormCornerTight(string name, Point2 at, double left, double cutter) =>
        new(
            "form-corner-tight",
            Severity.Error,
            $"{name} at {Place(at)}",
            $"{Mm(left)} stays standing in a corner of the form, which is tighter than the radius {Mm(cutter)} of the smallest end mill: the shell would not seat",
            "round the form's corner in the drawing or add a smaller end mill"
        )
        {
            At = at,
        };

    public static Finding NestTooTight(string name, Point2 at, double clearance, double slackMin) =>
        new(
            "nest-too-tight",
            Severity.Error,
            $"{name} at {Place(at)}",
            $"the nest leaves {Mm(clearance)} round the form, {Mm(slackMin - clearance)} less than the shell's least slack of {Mm(slackMin)}: it would bind before it seats",
            $"raise rules.running_clearance to {Mm(slackMin)} or more, or lower shell.slack_min if the shells are that alike"
        )
        {
            At = at,
        };

    /// <param name="clearance">Of the hole over its pin, on the diameter, mm.</param>
    public static Finding LocatorHoleTight(double clearance, double slackMin) =>
        new(
            "locator-hole-tight",
            Severity.Error,
            "job",
            $"the shell's holes are {Mm(clearance)} wider than the locator pins, {Mm((2 * slackMin) - clearance)} less than twice the shell's least slack of {Mm(slackMin)}: it would bind on the pins",
            $"raise rules.locator_hole_clearance to {Mm(2 * slackMin)} or more, or lower shell.slack_min if the shells are that alike"
        );

    public static Finding FormUpInSeal(int form, Point2 at, double height) =>
        new(
            "form-up-in-seal",
            Severity.Warning,
            $"form {Count(form)} at {Place(at)}",
            $"a dome {Mm(height)} high stands within the seal; where its own loop leaks, the vacuum gets under it and it may buckle",
            "vent the form through the shell, or check by hand that it stays up at full vacuum"
        )
        {
            At = at,
        };

    public static Finding NoLocator() =>
        new(
            "no-locator",
            Severity.Error,
            "job",
            "nothing says what finds the shell's place on the block before the vacuum is on",
            "state the locator: form, pins or hand"
        );

    public static Finding NoFormToNest() =>
        new(
            "no-form-to-nest",
            Severity.Error,
            "job",
            "the locator is a form that nests in the block, but no form hangs down",
            "draw the form and state it as down, or state another locator"
        );

    public static Finding LocatedByHand(double slack) =>
        new(
            "located-by-hand",
            Severity.Warning,
            "job",
            $"the shell is put in its place by hand: it may lie off by more than its slack of {Mm(slack)}",
            "let a form nest or put pins through the scrap where the edge must be true"
        );

    public static Finding NoRoomForPins() =>
        new(
            "locator-no-room",
            Severity.Error,
            "job",
            "on no line through the part's middle is there room on this blank for a pin on either side, clear of the trim",
            "take a larger blank, state pins = [[x, y], [x, y]] where there is room, or lay it by hand: by = \"hand\""
        );

    public static Finding TooFewLocatorPins(int count) =>
        new(
            "too-few-locator-pins",
            Severity.Error,
            "job",
            $"{Count(count)} locator pins are stated; two hold a place and a turn",
            "state at least two pins, or another locator"
        );

    /// <param name="spread">By how much shells of different batches differ over that distance, mm; null where the shrinkage is not stated.</param>
    public static Finding LocatorOverConstrained(
        string first,
        string second,
        double distance,
        double? spread,
        double clearance
    ) =>
        new(
            "locator-over-constrained",
            Severity.Warning,
            $"{first}, {second}",
            spread is { } by
                ? $"round holes over two pins {Mm(distance)} apart: shells of different batches differ by {Mm(by)} over that distance, {Mm(by - clearance)} more than the holes' clearance of {Mm(clearance)}"
                : $"round holes over two pins {Mm(distance)} apart, and how much the shell shrinks is not stated: it must not differ by more than the holes' clearance of {Mm(clearance)}",
            spread is { } more
                ? $"write holes = \"round-and-slot\", set the pins less than {Mm(distance * clearance / more)} apart, or widen rules.locator_hole_clearance to {Mm(Math.Ceiling(more * 20) / 20)}"
                : "write holes = \"round-and-slot\", or state [sheet] shrinkage_from and shrinkage_to of the shell's material"
        );

    public static Finding LocatorInTheWay(string pin, Point2 at, string what, double by) =>
        new(
            "locator-in-the-way",
            Severity.Error,
            $"{pin} at {Place(at)}",
            $"the pin stands {Mm(by)} too near to {what}",
            "move the pin outwards into the scrap"
        )
        {
            At = at,
        };
}
