using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>Which way up the block is clamped, or whether the shell is on it.</summary>
public enum Setup
{
    /// <summary>The raw block face down: what is cut comes to lie against the plate. Its program moves in the underside frame.</summary>
    Underside,

    /// <summary>The block as it is used, bolted or held by the plate's seal; plate frame.</summary>
    Top,

    /// <summary>The finished block with the shell on it: the shop's daily cut; plate frame.</summary>
    Trim,
}

/// <summary>What is cut into the block, by what it is for.</summary>
public enum FeatureKind
{
    /// <summary>The whole upper face, down to the fixture height.</summary>
    Skim,

    /// <summary>All that stands above the face round the plugs: it is cleared down to the face by terraces.</summary>
    Plug,

    /// <summary>A groove over a plug's top by which the air under the shell leaves.</summary>
    PlugVent,

    /// <summary>The moat under the outline's trim path: room for cutter and chips, open to the block's edge.</summary>
    Relief,

    /// <summary>The same under one cutout's trim path.</summary>
    CutoutRelief,

    /// <summary>Room for a form of the shell that goes down into the block, with running clearance.</summary>
    FormPocket,

    /// <summary>The groove a sealing cord is laid in.</summary>
    GasketGroove,

    /// <summary>Shallow grooves in the face that carry the vacuum to all of a zone.</summary>
    Net,

    /// <summary>A groove in the underside from a plate port to under a zone, inside the plate's own seal.</summary>
    Channel,

    /// <summary>The blind pocket a magnet is glued into.</summary>
    MagnetPocket,

    /// <summary>A notch at the rim of a magnet pocket by which air and spare glue leave.</summary>
    MagnetNotch,

    /// <summary>A clearance hole over a thread of the plate, below its counterbore.</summary>
    BoltHole,

    /// <summary>Room above a bolt hole for washer, head and some air, so that nothing stands proud of the face.</summary>
    Counterbore,

    /// <summary>The hole over the plate's round-hole pin, which says where the block is; in plastics it takes a pressed bush.</summary>
    PinHole,

    /// <summary>The slot over the other pin, along the line of both: it stops the turn and leaves room for thermal growth.</summary>
    PinSlot,

    /// <summary>A hole for a pin that finds the shell by a hole in its scrap skirt.</summary>
    LocatorHole,

    /// <summary>A hole through the block by which a zone's air goes to the plate's vacuum.</summary>
    Port,

    /// <summary>Engraved letters: part, fixture, revision, program number, count of magnets and pole; the trim program's first comment.</summary>
    Label,

    /// <summary>An arrow engraved beside the label: the magnets' north poles face the shell.</summary>
    Mark,
}

/// <summary>
/// Material the design allows to be taken: everything in Area between FloorZ and TopZ, plate frame mm, FloorZ &lt; TopZ.
/// A Top removal is open upwards; an Underside one is open downwards (FloorZ = 0, TopZ = its ceiling). FloorZ of a through
/// hole is 0. The union of all removals is the finished block; the judge compares against nothing else.
/// </summary>
public sealed record Removal(
    Setup Setup,
    FeatureKind Kind,
    string Feature,
    ImmutableArray<Region> Area,
    double TopZ,
    double FloorZ
)
{
    /// <summary>True for what makes the face that the shell rests on: nothing keeps a wall from it.</summary>
    public bool MakesFace => Kind is FeatureKind.Skim or FeatureKind.Plug or FeatureKind.PlugVent;
}

/// <summary>One thing cut into the block. Removals is what may be taken for it. Plate frame, mm.</summary>
public abstract record Feature
{
    /// <summary>By which operations, findings and papers name it.</summary>
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    public required FeatureKind Kind { get; init; }

    /// <summary>From which side it is cut.</summary>
    public required Setup Setup { get; init; }

    /// <summary>What may be taken for it.</summary>
    public required ImmutableArray<Removal> Removals { get; init; }
}

/// <summary>An area cleared to a floor: relief, cutout relief, form pocket, magnet pocket, skim.</summary>
public sealed record PocketFeature : Feature
{
    /// <summary>The floor, plate frame.</summary>
    public required ImmutableArray<Region> Area { get; init; }

    /// <summary>Where it opens, mm.</summary>
    public required double TopZ { get; init; }

    /// <summary>Its floor, mm, below TopZ.</summary>
    public required double FloorZ { get; init; }

    /// <summary>How a cutter as wide as the relief cuts it in one pass at every depth; null for any other pocket.</summary>
    public OnePass? OnePass { get; init; }
}

/// <summary>
/// The centre lines of a relief of one width, mm, plate frame: the loop, the way out that begins on it and ends beside the block, and short
/// branches that begin on it where the trim cutter leads in and out.
/// </summary>
public sealed record OnePass(double Width, Contour Loop, OpenPath WayOut, ImmutableArray<OpenPath> Branches);

/// <summary>A groove of one width along closed loops and open runs (centre lines).</summary>
public sealed record GrooveFeature : Feature
{
    /// <summary>Closed centre lines.</summary>
    public required ImmutableArray<Contour> Loops { get; init; }

    /// <summary>Open centre lines.</summary>
    public required ImmutableArray<OpenPath> Runs { get; init; }

    /// <summary>From wall to wall, mm.</summary>
    public required double Width { get; init; }

    /// <summary>Where it opens, mm.</summary>
    public required double TopZ { get; init; }

    /// <summary>Its floor, mm, below TopZ.</summary>
    public required double FloorZ { get; init; }
}

/// <summary>
/// A round hole or, with SlotLength &gt; 0, a slot: centres of the end radii SlotLength apart along SlotAngleDeg, middle At.
/// FloorZ 0 means through. BreaksThrough says that a tool passes the plate's face there, into Opening's relief.
/// </summary>
public sealed record HoleFeature : Feature
{
    /// <summary>The hole's or the slot's middle.</summary>
    public required Point2 At { get; init; }

    /// <summary>Of the hole, or the slot's width, mm.</summary>
    public required double Diameter { get; init; }

    /// <summary>Where it opens, mm.</summary>
    public required double TopZ { get; init; }

    /// <summary>Its floor, mm; 0 for a through hole.</summary>
    public required double FloorZ { get; init; }

    /// <summary>Between the centres of a slot's end radii, mm; 0 for a hole.</summary>
    public required double SlotLength { get; init; }

    /// <summary>Direction of the slot against +X, degrees.</summary>
    public required double SlotAngleDeg { get; init; }

    /// <summary>True where a tool passes the plate's face there.</summary>
    public required bool BreaksThrough { get; init; }

    /// <summary>The plate's opening below it; null without one.</summary>
    public required PlateOpening? Opening { get; init; }
}

/// <summary>Single-stroke lettering or a mark, cut with an engraver; Width is the cut's width at the face, Depth below the face.</summary>
public sealed record EngravingFeature : Feature
{
    /// <summary>What it says; empty for a mark.</summary>
    public required string Text { get; init; }

    /// <summary>Centre lines of the cutter.</summary>
    public required ImmutableArray<OpenPath> Strokes { get; init; }

    /// <summary>Of the cut at the face, mm.</summary>
    public required double Width { get; init; }

    /// <summary>The face, mm.</summary>
    public required double TopZ { get; init; }

    /// <summary>Below the face, mm.</summary>
    public required double Depth { get; init; }
}

/// <summary>What a trim cut goes round.</summary>
public enum TrimKind
{
    /// <summary>A hole in the part; its slug comes out.</summary>
    Cutout,

    /// <summary>Scrap in a corner or bay of another cut's edge that a thinner cutter mills away before it.</summary>
    Corner,

    /// <summary>The part's outer edge; it is cut last.</summary>
    Outline,
}

/// <summary>What becomes of the piece that a trim cut sets free.</summary>
public enum SlugHold
{
    /// <summary>The whole slug is milled to chips.</summary>
    MilledAway,

    /// <summary>Bridges of the shell hold the slug; they are broken by hand.</summary>
    Tabbed,

    /// <summary>The outline: what is outside is the skirt, held as the job says.</summary>
    Skirt,
}

/// <summary>A bridge left in the shell: its middle's distance from the cut's start along Path, and its length, mm.</summary>
public sealed record Tab(double At, double Length);

/// <summary>
/// One cut of the production trim, plate frame. Edge is the finished edge; Path the cutter's centre line in the direction
/// of travel (climb); LeadIn ends and LeadOut starts on Path's start. FloorZ is the tip's height. Clearing holds the inner
/// rings of a slug that is milled away. Sweep is all that the cutter touches, leads, plunge and tabs included.
/// </summary>
public sealed record TrimCut
{
    /// <summary>By which findings and papers name it.</summary>
    public required string Name { get; init; }

    /// <summary>What it goes round.</summary>
    public required TrimKind Kind { get; init; }

    /// <summary>Of a corner: the name of the cut whose edge it is at; else empty.</summary>
    public string AtEdgeOf { get; init; } = "";

    /// <summary>The finished edge.</summary>
    public required Contour Edge { get; init; }

    /// <summary>The cutter's centre line in the direction of travel.</summary>
    public required Contour Path { get; init; }

    /// <summary>Ends on Path's start.</summary>
    public required OpenPath LeadIn { get; init; }

    /// <summary>Starts on Path's start.</summary>
    public required OpenPath LeadOut { get; init; }

    /// <summary>Inner rings of a slug that is milled away.</summary>
    public required ImmutableArray<Contour> Clearing { get; init; }

    /// <summary>Bridges left in the shell.</summary>
    public required ImmutableArray<Tab> Tabs { get; init; }

    /// <summary>What becomes of the piece that comes free.</summary>
    public required SlugHold Hold { get; init; }

    /// <summary>The trim cutter.</summary>
    public required Tool Tool { get; init; }

    /// <summary>The tip's height, mm.</summary>
    public required double FloorZ { get; init; }

    /// <summary>All that the cutter touches, leads, plunge and tabs included.</summary>
    public required ImmutableArray<Region> Sweep { get; init; }
}

/// <summary>A round cutout of the shell that a drill of the rack makes in one stroke. Plate frame, mm.</summary>
public sealed record DrilledHole
{
    /// <summary>By which findings and papers name it.</summary>
    public required string Name { get; init; }

    /// <summary>The drawn edge.</summary>
    public required Contour Edge { get; init; }

    /// <summary>Its middle.</summary>
    public required Point2 At { get; init; }

    /// <summary>The drill.</summary>
    public required Tool Tool { get; init; }

    /// <summary>The height of the drill's point, mm: its lips' corners are through the shell then.</summary>
    public required double FloorZ { get; init; }

    /// <summary>What the drill takes of the shell.</summary>
    public required Region Sweep { get; init; }
}

/// <summary>A cord laid in a closed groove. Joint is where the scarf goes, on the longest straight. Lengths mm.</summary>
/// <param name="Length">Once round the centre line.</param>
/// <param name="CutLength">With the allowance for the joint.</param>
/// <param name="Zone">Index of the zone it seals.</param>
/// <param name="IsOuter">False where it goes round a hole of its zone.</param>
public sealed record CordLoop(Contour Centre, double Length, double CutLength, Point2 Joint, int Zone, bool IsOuter);

/// <summary>
/// One sealed zone. Boundary's contours are the groove centre lines; Sealed is what the vacuum acts on (inside the
/// groove's inner wall). PortAt is where its air leaves.
/// </summary>
/// <param name="Index">From 0.</param>
/// <param name="Feeds">What feeds that hole, by name.</param>
public sealed record SealedZone(int Index, Region Boundary, ImmutableArray<Region> Sealed, Point2 PortAt, string Feeds)
{
    private readonly ImmutableArray<Region>? _reached;

    /// <summary>
    /// Forms that rise from the flange inside the boundary, by their edge on the shell's underside: vacuum on them pulls as on
    /// their projection, and one groove or hole that opens into such a hollow reaches all of it. Empty without forms.
    /// </summary>
    public ImmutableArray<Region> Hollows { get; init; } = [];

    /// <summary>What stands under those hollows, by its foot on the face; no groove or hole goes there.</summary>
    public ImmutableArray<Region> Plugs { get; init; } = [];

    /// <summary>
    /// What of Sealed the vacuum reaches: within the stated reach of a groove of the net that hangs on the plate's vacuum, or of a hollow that it opens into. All
    /// of Sealed until the net is made. This is what counts for holding.
    /// </summary>
    public ImmutableArray<Region> Reached
    {
        get => _reached ?? Sealed;
        init => _reached = value;
    }
}

/// <summary>A magnet in the block and its loose partner above the shell, plate frame mm.</summary>
/// <param name="Locked">False: the optimiser may move it.</param>
/// <param name="FromDrawing">True where the drawing's magnet layer fixes it.</param>
public sealed record MagnetPlace(Point2 At, bool Locked, bool FromDrawing);

/// <summary>One edge of the vacuum path's graph: from the plate port to a zone; the least section in mm2.</summary>
public sealed record VacuumLink(string From, string To, double SectionMm2, double LengthMm);

/// <summary>Everything that is wanted of the block and the trim, plate frame. FixtureHeight is the skimmed face's Z.</summary>
public sealed record FixtureDesign
{
    /// <summary>The part in the plate frame.</summary>
    public required Part Part { get; init; }

    /// <summary>Where the part lies on the plate.</summary>
    public required Placement Placement { get; init; }

    /// <summary>The skimmed face above the plate's, mm.</summary>
    public required double FixtureHeight { get; init; }

    /// <summary>The thickest that the raw blank may be, mm.</summary>
    public required double RawThickness { get; init; }

    /// <summary>How the block is turned over; null where one setup does.</summary>
    public required Flip? Flip { get; init; }

    /// <summary>What holds the part.</summary>
    public required ImmutableArray<SealedZone> Zones { get; init; }

    /// <summary>What seals those zones.</summary>
    public required ImmutableArray<CordLoop> Cords { get; init; }

    /// <summary>In the order of their numbers.</summary>
    public required ImmutableArray<MagnetPlace> Magnets { get; init; }

    /// <summary>In the order of cutting.</summary>
    public required ImmutableArray<TrimCut> TrimCuts { get; init; }

    /// <summary>All that is cut into the block.</summary>
    public required ImmutableArray<Feature> Features { get; init; }

    /// <summary>From the plate's ports to the zones.</summary>
    public required ImmutableArray<VacuumLink> VacuumPath { get; init; }

    /// <summary>Where the shell rests on the block.</summary>
    public required ImmutableArray<Region> Contact { get; init; }

    /// <summary>What is engraved, and the trim program's first comment.</summary>
    public required string Label { get; init; }

    /// <summary>Zones of an outer land that hold the scrap skirt, not the part; numbered on from <see cref="Zones"/>.</summary>
    public ImmutableArray<SealedZone> SkirtZones { get; init; } = [];

    /// <summary>The skirt's cords: laid and cut like the others, but they bear no load of the part.</summary>
    public ImmutableArray<CordLoop> SkirtCords { get; init; } = [];

    /// <summary>Cutouts that are drilled and have no trim cut; none of them is among <see cref="TrimCuts"/>.</summary>
    public ImmutableArray<DrilledHole> DrilledHoles { get; init; } = [];

    /// <summary>What the forms in the seal bear of the vacuum, in the order of the part's forms.</summary>
    public ImmutableArray<FormBearing> Bearings { get; init; } = [];

    /// <summary>The part's cords, then the skirt's: all that is cut from the roll and laid.</summary>
    public ImmutableArray<CordLoop> AllCords => Cords.AddRange(SkirtCords);

    /// <summary>What the skim goes down to, mm: the highest plug's top, the face without one.</summary>
    public double SkimmedZ =>
        Removals.Where(r => r.Kind == FeatureKind.Plug).Select(r => r.TopZ).DefaultIfEmpty(FixtureHeight).Max();

    /// <summary>The thinnest blank, mm, that still leaves something to skim.</summary>
    public double BlankLeastSafe(Job job) => SkimmedZ + job.Rules.LeastSkim;

    /// <summary>All that may be taken from the block, feature by feature; plate frame, mm.</summary>
    public IEnumerable<Removal> Removals => Features.SelectMany(f => f.Removals);
}
