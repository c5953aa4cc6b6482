using System.Globalization;
using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Seals;

/// <summary>What keeps an area from being sealed and fed: the bends of the cord, necks, cutouts, ports, the outer land of the skirt; lengths in mm, areas in mm2.</summary>
internal static class ZoneFindings
{
    private const int MostPlaces = 8;

    /// <param name="remedy">What was tried and has room, or that nothing has.</param>
    public static Finding BendTooTight(Point2 at, double radius, string remedy) =>
        new(
            "bend-too-tight",
            Severity.Error,
            Place(at),
            $"the groove's centre line cannot be kept at a radius of {Mm(radius)} on both sides here",
            $"{remedy}; or keep the seal out of this place by a keep-out"
        )
        {
            At = at,
        };

    /// <param name="remedy">What was tried and has room, or that nothing has.</param>
    public static Finding NoZone(Point2 at, double widest, double needed, double keep, string remedy) =>
        new(
            "no-sealed-zone",
            Severity.Error,
            Place(at),
            $"no sealed zone is left: inside the lands ({Mm(keep)} from every edge) the widest place is {Mm(widest)}, a cord loop needs {Mm(needed)}: {Mm(needed - widest)} short",
            remedy
        )
        {
            At = at,
        };

    /// <param name="by">What the flange is short of at its narrowest, mm.</param>
    /// <param name="remedy">What was tried and has room, or that nothing has.</param>
    public static Finding FlangeNarrow(int form, Point2 at, double by, string remedy) =>
        new(
            "flange-too-narrow",
            Severity.Warning,
            $"form {Count(form)} at {Place(at)}",
            $"the flange is {Mm(by)} too narrow for a cord loop with its lands round the form: the form stays outside the seal and nothing pulls it down",
            remedy
        )
        {
            At = at,
        };

    /// <param name="pieces">Places and areas, mm2, the largest first.</param>
    /// <param name="widest">Of the first, mm.</param>
    /// <param name="remedy">What was tried and seals it, or that nothing does.</param>
    public static Finding ZoneDropped(
        IReadOnlyList<(Point2 At, double Area)> pieces,
        double widest,
        double needed,
        string remedy
    ) =>
        new(
            "zone-dropped",
            Severity.Warning,
            Place(pieces[0].At),
            $"a piece of {Area(pieces[0].Area)} is {Mm(widest)} wide and a port with its lands needs {Mm(needed)}: it is not sealed{Others(pieces)}",
            remedy
        )
        {
            At = pieces[0].At,
        };

    public static Finding Neck(Point2 at, double width, double needed, int a, int b) =>
        new(
            "neck-too-narrow",
            Severity.Note,
            Place(at),
            $"the neck between zones {Count(a)} and {Count(b)} has room of {Mm(width)} between the lands, one loop through it needs {Mm(needed)}: two loops are made",
            "nothing to do"
        )
        {
            At = at,
        };

    /// <param name="pieces">Places and areas, mm2, that are left over for one cause, the largest first.</param>
    /// <param name="widest">Of the first, mm.</param>
    /// <param name="remedy">What was tried and seals it, or that nothing does.</param>
    public static Finding RoomNotSealed(
        IReadOnlyList<(Point2 At, double Area)> pieces,
        double widest,
        double needed,
        string remedy
    ) =>
        new(
            "area-not-sealed",
            Severity.Warning,
            Place(pieces[0].At),
            (
                widest < needed
                    ? $"{Area(pieces[0].Area)} inside the lands is {Mm(widest)} wide, too narrow for a seal by {Mm(needed - widest)}: nothing pulls the shell down there"
                    : $"{Area(pieces[0].Area)} inside the lands is not sealed: beside cutouts and forms the cord cannot bend into it at a radius of {Mm(needed / 2)}: nothing pulls the shell down there"
            ) + Others(pieces),
            remedy
        )
        {
            At = pieces[0].At,
        };

    private static string Others(IReadOnlyList<(Point2 At, double Area)> pieces) =>
        pieces.Count == 1
            ? ""
            : $"; the same of {Count(pieces.Count - 1)} more, {Area(pieces.Skip(1).Sum(p => p.Area))} together: "
                + string.Join(", ", pieces.Skip(1).Take(MostPlaces).Select(p => Place(p.At)))
                + (pieces.Count - 1 > MostPlaces ? " ..." : "");

    /// <param name="away">From the cutout to the edge, or to what the outer groove passes, mm.</param>
    /// <param name="needed">Room for two grooves with their lands, mm.</param>
    /// <param name="what">What it lies so near to.</param>
    public static Finding CutoutJoinedOutside(int cutout, Point2 at, double away, double needed, string what) =>
        JoinedOutside(
            cutout,
            at,
            $"the cutout lies {Mm(away)} from {what} and two grooves need {Mm(needed)}: the outer groove passes on its inner side and its slug lies outside the seal"
        );

    /// <param name="by">Missing between its loop's centre line and the next, mm.</param>
    /// <param name="radius">The least of a centre line, mm.</param>
    public static Finding CutoutLoopHasNoRoom(int cutout, Point2 at, double by, double radius) =>
        JoinedOutside(
            cutout,
            at,
            $"a loop of its own, bent at a radius of {Mm(radius)} or more, is {Mm(by)} short of a land beside the next loop: the outer groove passes on the cutout's inner side and its slug lies outside the seal"
        );

    /// <param name="more">What the outer loop feeds more than with a loop round the cutout, mm2.</param>
    public static Finding CutoutLoopCutsTheNet(int cutout, Point2 at, double more) =>
        JoinedOutside(
            cutout,
            at,
            $"a loop of its own would leave the vacuum net {Area(more)} less to feed: the outer groove passes on the cutout's inner side and its slug lies outside the seal"
        );

    public static Finding CutoutWithoutLoop(int cutout, Point2 at, double radius) =>
        JoinedOutside(
            cutout,
            at,
            $"no cord bends round the cutout at a radius of {Mm(radius)} on both sides: the outer groove passes on its inner side and its slug lies outside the seal"
        );

    private static Finding JoinedOutside(int cutout, Point2 at, string message) =>
        new(
            "cutout-joined-outside",
            Severity.Note,
            $"cutout {Count(cutout)} at {Place(at)}",
            message,
            "nothing to do where the part is held well enough"
        )
        {
            At = at,
        };

    /// <param name="by">What a loop of the first alone is short of, mm; not above 0 where it has room.</param>
    /// <param name="more">What the common loop feeds more, mm2.</param>
    public static Finding CutoutsJoined(int[] cutouts, Point2 at, double by, double more) =>
        new(
            "cutouts-joined",
            Severity.Note,
            $"cutouts {string.Join(", ", cutouts.Select(Count))} at {Place(at)}",
            by > 0
                ? $"these cutouts are too near each other for a groove between them, {Mm(by)} short: one loop goes round all of them"
                : $"loops of their own would leave the vacuum net {Area(more)} less to feed: one loop goes round all of them",
            "nothing to do"
        )
        {
            At = at,
        };

    public static Finding ZoneWithoutPort(int zone, Point2 at, double area) =>
        new(
            "zone-without-port",
            Severity.Warning,
            $"zone {Count(zone)} at {Place(at)}",
            $"no hole or channel reaches this zone of {Area(area)} from a port of the plate: it is left out",
            "move the part so that the zone lies over the plate's seal zone, or give the plate a port or groove there"
        )
        {
            At = at,
        };

    public static Finding NoPort(string plate) =>
        new(
            "no-port",
            Severity.Error,
            $"plate {plate}",
            "no zone can be reached from a port of the plate",
            "move the part over the plate's port, or give the plate a port or groove under the part"
        );

    /// <param name="remedy">What was tried and has room, or that nothing has.</param>
    public static Finding SkirtLandHasNoRoom(double widest, double needed, string remedy) =>
        new(
            "skirt-land-no-room",
            Severity.Error,
            "skirt",
            $"the outer land that shall hold the skirt finds no room for its own seal: the widest place between relief, bolts and the block's edge is {Mm(widest)}, a cord loop needs {Mm(needed)}: {Mm(needed - widest)} short",
            remedy
        );

    public static Finding SkirtReach(double reach) =>
        new(
            "skirt-reach",
            Severity.Note,
            "skirt",
            $"the shell's skirt must reach {Mm(reach)} past the finished edge to cover its outer seal",
            "form the shell with that much skirt"
        );

    public static Finding NetWide(double width, double most, double dimple) =>
        new(
            "net-wide",
            dimple > 0.02 ? Severity.Warning : Severity.Note,
            "net",
            $"the smallest end mill is {Mm(width)} wide, more than two shell thicknesses ({Mm(most)}): the shell sags {(dimple * 1000).ToString("0.#", CultureInfo.InvariantCulture)} micrometres into the net at full vacuum",
            $"add an end mill of at most {Mm(most)}"
        );
}
