using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>Every finding of the design stage; lengths in mm.</summary>
internal static class DesignFindings
{
    public static Finding SkimTooThin(double skim, double least, double raw, double face) =>
        new(
            "skim-too-thin",
            Severity.Error,
            "block",
            $"the block measures {Mm(raw)} and is skimmed to {Mm(face)}: {Mm(skim)} to skim, {Mm(least)} is the least",
            $"take a blank at least {Mm(face + least)} thick or lower the fixture height to {Mm(raw - least)}"
        );

    public static Finding FloorThin(string what, Point2? at, double floor, double least) =>
        new(
            "floor-thin",
            Severity.Error,
            at is { } p ? $"{what} at {Place(p)}" : what,
            $"the floor under the {what} is {Mm(floor)}, {Mm(least - floor)} less than the least floor of {Mm(least)}",
            "take a thicker blank and raise the fixture height by that much, or make the feature shallower"
        )
        {
            At = at,
        };

    public static Finding StopsDoNotSeat(string plate, string axis) =>
        new(
            "stops-missing",
            Severity.Error,
            $"plate {plate}",
            $"no edge stop of the plate holds the blank in {axis}",
            $"give the plate a stop whose normal points along {axis}"
        );

    public static Finding BlankInsidePlateSeal(double shortBy) =>
        new(
            "blank-inside-plate-seal",
            Severity.Error,
            "block",
            $"the blank falls {Mm(shortBy)} short of covering the plate's seal, so nothing would hold it while it is cut",
            "take a larger blank"
        );

    public static Finding TooFewBolts(string plate, int count) =>
        new(
            "too-few-bolts",
            Severity.Error,
            $"plate {plate}",
            $"{Count(count)} bolt holes of the plate lie under the blank, at least 2 are needed",
            "take a larger blank or add bolt holes to the plate"
        );

    public static Finding HoleInPlateSeal(string hole, Point2 at, double shortBy) =>
        new(
            "hole-in-plate-seal",
            Severity.Error,
            $"{hole} at {Place(at)}",
            $"the hole reaches {Mm(shortBy)} too far towards the plate's seal: drilling it would let go of the block",
            "move the plate's opening outside its seal loop, or pull the seal loop in"
        )
        {
            At = at,
        };

    public static Finding HoleOverEdge(string hole, Point2 at, double needed) =>
        new(
            "hole-over-edge",
            Severity.Error,
            $"{hole} at {Place(at)}",
            $"the hole's centre must stay {Mm(needed)} inside the block's edge and does not",
            "take a larger blank or move the opening"
        )
        {
            At = at,
        };

    public static Finding GoesOnTwoWays(string other) =>
        new(
            "block-goes-on-two-ways",
            Severity.Warning,
            "plate",
            $"the finished block also goes on {other}",
            "shift one bolt hole or one pin of the plate by a few millimetres off the symmetry"
        );

    public static Finding DoesNotFit(PlaceSearch.Shortage shortage, Blank blank, IReadOnlyList<string> others) =>
        new(
            "part-does-not-fit",
            Severity.Error,
            $"blank {blank.Name}",
            $"the part does not fit on the blank: {shortage.What}: {Mm(shortage.By)} short",
            others.Count > 0
                ? $"take the blank {string.Join(" or ", others)}"
                : "no blank of the shop takes it: add a larger one, or another plate"
        );

    public static Finding ReliefOverEdge(double by, double margin) =>
        new(
            "part-over-edge",
            Severity.Error,
            "relief",
            $"the relief comes {Mm(by)} too near to the block's edge ({Mm(margin)} must stay)",
            "move the part on the blank or take a larger blank"
        );

    public static Finding ObstacleUnderPart(string what, Point2 at, double by) =>
        new(
            "bolt-under-part",
            Severity.Error,
            $"{what} at {Place(at)}",
            $"{what} stands {Mm(by)} too near to the part's relief",
            $"move or turn the part by at least that much, or take another blank"
        )
        {
            At = at,
        };

    public static Finding NoBreakOut(double width, double wall) =>
        new(
            "no-break-out",
            Severity.Error,
            "relief",
            $"no straight channel {Mm(width)} wide leads from the relief to the block's edge with {Mm(wall)} of wall to bolts and pins: chips would stay",
            "move or turn the part on the blank, or take a larger blank"
        );

    public static Finding FormCornerTight(string name, Point2 at, double cutter) =>
        new(
            "form-corner-tight",
            Severity.Error,
            $"{name} at {Place(at)}",
            $"a corner of the form is tighter than the radius {Mm(cutter)} of the smallest end mill: the shell would not seat",
            "round the form's corner in the drawing or add a smaller end mill"
        )
        {
            At = at,
        };

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

    public static Finding BendTooTight(Point2 at, double radius) =>
        new(
            "bend-too-tight",
            Severity.Error,
            Place(at),
            $"the groove's centre line cannot be kept at a radius of {Mm(radius)} on both sides here",
            "take a thinner cord, or keep the seal out of this place by a keep-out"
        )
        {
            At = at,
        };

    public static Finding NoZone(Point2 at, double widest, double needed, double keep) =>
        new(
            "no-sealed-zone",
            Severity.Error,
            Place(at),
            $"no sealed zone is left: inside the lands ({Mm(keep)} from every edge) the widest place is {Mm(widest)}, a cord loop needs {Mm(needed)}: {Mm(needed - widest)} short",
            "take a thinner cord with a smaller bend radius, or a narrower land"
        )
        {
            At = at,
        };

    public static Finding ZoneDropped(Point2 at, double area, double widest, double needed) =>
        new(
            "zone-dropped",
            Severity.Warning,
            Place(at),
            $"a piece of {Area(area)} is {Mm(widest)} wide and a port with its lands needs {Mm(needed)}: it is not sealed",
            "take a thinner cord or a narrower land, or let magnets hold this place"
        )
        {
            At = at,
        };

    public static Finding Neck(Point2 at, double width, double needed, int a, int b) =>
        new(
            "neck-too-narrow",
            Severity.Note,
            Place(at),
            $"the neck between zones {Count(a)} and {Count(b)} has room of {Mm(width)} between the lands, one loop through it needs {Mm(needed)}: two loops are made",
            "nothing to do; take a thinner cord for a single loop"
        )
        {
            At = at,
        };

    public static Finding RoomNotSealed(Point2 at, double area, double widest, double needed) =>
        new(
            "area-not-sealed",
            Severity.Warning,
            Place(at),
            $"{Area(area)} inside the lands is {Mm(widest)} wide, too narrow for a seal by {Mm(needed - widest)}: nothing pulls the shell down there",
            "take a thinner cord with a smaller bend radius, or let magnets hold this place"
        )
        {
            At = at,
        };

    public static Finding CutoutJoinedOutside(int cutout, Point2 at) =>
        new(
            "cutout-joined-outside",
            Severity.Note,
            $"cutout {Count(cutout)} at {Place(at)}",
            "the cutout is too near the edge for two grooves: the groove passes on its inner side and its slug lies outside the seal",
            "nothing to do"
        )
        {
            At = at,
        };

    public static Finding CutoutsJoined(int[] cutouts, Point2 at) =>
        new(
            "cutouts-joined",
            Severity.Note,
            $"cutouts {string.Join(", ", cutouts.Select(Count))} at {Place(at)}",
            "these cutouts are too near each other for a groove between them: one loop goes round all of them",
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

    /// <summary>The hole is then bored from below, which takes an underside program.</summary>
    public static Finding OpeningWithoutRelief(PlateOpening opening, Point2 at, double diameter, double depth) =>
        new(
            "opening-without-relief",
            Severity.Warning,
            $"{opening.Name} at {Place(at)}",
            $"a hole through the block here would need a relief {Mm(diameter)} wide and {Mm(depth)} deep below the plate's face; the plate states {Mm(opening.ReliefDiameter)} by {Mm(opening.ReliefDepth)}: {Mm(Math.Max(diameter - opening.ReliefDiameter, depth - opening.ReliefDepth))} short, so the block is cut from below first and turned over",
            "widen or deepen the relief in the plate and state it, to cut the block in one setup"
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
            $"the shell is laid by hand: it may lie off by more than its slack of {Mm(slack)}",
            "let a form nest or put pins through the scrap where the edge must be true"
        );

    public static Finding TooFewLocatorPins(int count) =>
        new(
            "too-few-locator-pins",
            Severity.Error,
            "job",
            $"{Count(count)} locator pins are stated; two hold a place and a turn",
            "state at least two pins, or another locator"
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

    public static Finding SkirtLandHasNoRoom(double widest, double needed) =>
        new(
            "skirt-land-no-room",
            Severity.Error,
            "skirt",
            $"the outer land that shall hold the skirt finds no room for its own seal: the widest place between relief, bolts and the block's edge is {Mm(widest)}, a cord loop needs {Mm(needed)}: {Mm(needed - widest)} short",
            "take a larger blank, a thinner cord, or hold the skirt by tabs or clamps"
        );

    public static Finding SkirtReach(double reach) =>
        new(
            "skirt-reach",
            Severity.Note,
            "skirt",
            $"the shell's skirt must reach {Mm(reach)} past the finished edge to cover its outer seal",
            "form the shell with that much skirt"
        );

    public static Finding NoNotchTool(double depth) =>
        new(
            "no-notch-tool",
            Severity.Error,
            "tools",
            $"no end mill is slimmer than a magnet and cuts {Mm(depth)} deep for the air notch of its pocket",
            "add an end mill of an eighth of an inch or 3 mm with longer flutes"
        );

    public static Finding MagnetWall(int magnet, Point2 at, string what, double by, double wall) =>
        new(
            "magnet-wall",
            Severity.Error,
            $"magnet {Count(magnet)} at {Place(at)}",
            $"the pocket's wall to {what} is {Mm(by)} thinner than the {Mm(wall)} it needs",
            "move the magnet by at least that much, or take a smaller one"
        )
        {
            At = at,
        };

    public static Finding NoNetTool() =>
        new(
            "no-net-tool",
            Severity.Error,
            "tools",
            "no end mill reaches the depth of the distribution net",
            "add a small end mill"
        );

    public static Finding NetWide(double width, double most, double dimple) =>
        new(
            "net-wide",
            dimple > 0.02 ? Severity.Warning : Severity.Note,
            "net",
            $"the smallest end mill is {Mm(width)} wide, more than two shell thicknesses ({Mm(most)}): the shell sags {(dimple * 1000).ToString("0.#", CultureInfo.InvariantCulture)} micrometres into the net at full vacuum",
            $"add an end mill of at most {Mm(most)}"
        );

    public static Finding PortBlocked(int zone, Point2 at) =>
        new(
            "port-blocked",
            Severity.Error,
            $"port {Count(zone)} at {Place(at)}",
            "a magnet pocket stands so near to the port that no groove leaves it",
            "move the magnet away from the port"
        )
        {
            At = at,
        };

    public static Finding NetNearPocket(int zone, Point2 at, double land, double wall) =>
        new(
            "net-near-pocket",
            Severity.Warning,
            $"port {Count(zone)} at {Place(at)}",
            $"a magnet asked for stands so near to the port that the net passes pockets at a wall of {Mm(wall)} instead of a land of {Mm(land)}",
            "move the magnet away from the port"
        )
        {
            At = at,
        };

    public static Finding NetReach(int zone, Point2 at, double farthest, double reach) =>
        new(
            "net-reach",
            Severity.Warning,
            $"zone {Count(zone)} at {Place(at)}",
            $"this point is {Mm(farthest)} from the nearest vacuum groove, {Mm(farthest - reach)} more than stated: pockets and lands leave no room for one",
            "move the magnets that stand between, or state a longer reach"
        )
        {
            At = at,
        };

    public static Finding ZoneCutOff(int zone, Point2 at) =>
        new(
            "zone-cut-off",
            Severity.Error,
            $"zone {Count(zone)} at {Place(at)}",
            "no unbroken way leads from a port of the plate to this zone",
            "see the findings before this one"
        )
        {
            At = at,
        };

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

    public static Finding FeatureOverEdge(string feature, Point2 at) =>
        new(
            "feature-over-edge",
            Severity.Error,
            $"{feature} at {Place(at)}",
            "the feature leaves the block",
            "move the part or take a larger blank"
        )
        {
            At = at,
        };

    public static Finding FeaturesMeet(string a, string b, Point2 at) =>
        new(
            "features-meet",
            Severity.Error,
            $"{a} and {b} at {Place(at)}",
            $"{a} and {b} run into each other",
            "move the part, the magnet or the opening that the message names"
        )
        {
            At = at,
        };

    public static Finding WallThin(string a, string b, Point2 at, double wall, double least) =>
        new(
            "wall-thin",
            Severity.Error,
            $"{a} and {b} at {Place(at)}",
            $"the wall between {a} and {b} is {Mm(wall)}, {Mm(least - wall)} less than the least of {Mm(least)}",
            "move the part, the magnet or the form that the message names"
        )
        {
            At = at,
        };

    public static string Mm(double value) => value.ToString("0.##", CultureInfo.InvariantCulture) + " mm";

    public static string Count(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Area(double mm2) => (mm2 / 100).ToString("0.#", CultureInfo.InvariantCulture) + " cm2";

    public static string Place(Point2 p) => string.Create(CultureInfo.InvariantCulture, $"X{p.X:0.0} Y{p.Y:0.0}");
}
