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
);

/// <summary>One thing cut into the block. Removals is what may be taken for it. Plate frame, mm.</summary>
public abstract record Feature(string Name, FeatureKind Kind, Setup Setup, ImmutableArray<Removal> Removals);

/// <summary>An area cleared to a floor: relief, cutout relief, form pocket, magnet pocket, skim.</summary>
public sealed record PocketFeature(
    string Name,
    FeatureKind Kind,
    Setup Setup,
    ImmutableArray<Region> Area,
    double TopZ,
    double FloorZ,
    ImmutableArray<Removal> Removals
) : Feature(Name, Kind, Setup, Removals);

/// <summary>A groove of one width along closed loops and open runs (centre lines).</summary>
public sealed record GrooveFeature(
    string Name,
    FeatureKind Kind,
    Setup Setup,
    ImmutableArray<Contour> Loops,
    ImmutableArray<OpenPath> Runs,
    double Width,
    double TopZ,
    double FloorZ,
    ImmutableArray<Removal> Removals
) : Feature(Name, Kind, Setup, Removals);

/// <summary>
/// A round hole or, with SlotLength &gt; 0, a slot: centres of the end radii SlotLength apart along SlotAngleDeg, middle At.
/// FloorZ 0 means through. BreaksThrough says that a tool passes the plate's face there, into Opening's relief.
/// </summary>
public sealed record HoleFeature(
    string Name,
    FeatureKind Kind,
    Setup Setup,
    Point2 At,
    double Diameter,
    double TopZ,
    double FloorZ,
    double SlotLength,
    double SlotAngleDeg,
    bool BreaksThrough,
    PlateOpening? Opening,
    ImmutableArray<Removal> Removals
) : Feature(Name, Kind, Setup, Removals);

/// <summary>Single-stroke lettering or a mark, cut with an engraver; Width is the cut's width at the face, Depth below the face.</summary>
public sealed record EngravingFeature(
    string Name,
    FeatureKind Kind,
    Setup Setup,
    string Text,
    ImmutableArray<OpenPath> Strokes,
    double Width,
    double TopZ,
    double Depth,
    ImmutableArray<Removal> Removals
) : Feature(Name, Kind, Setup, Removals);

/// <summary>What a trim cut goes round.</summary>
public enum TrimKind
{
    /// <summary>A hole in the part; its slug comes out.</summary>
    Cutout,

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
public sealed record TrimCut(
    string Name,
    TrimKind Kind,
    Contour Edge,
    Contour Path,
    OpenPath LeadIn,
    OpenPath LeadOut,
    ImmutableArray<Contour> Clearing,
    ImmutableArray<Tab> Tabs,
    SlugHold Hold,
    Tool Tool,
    double FloorZ,
    ImmutableArray<Region> Sweep
);

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
    /// What of Sealed the vacuum reaches: within the stated reach of a groove of the net that hangs on the plate's vacuum. All
    /// of Sealed until the net is laid. This is what counts for holding.
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
public sealed record FixtureDesign(
    Part Part,
    Placement Placement,
    double FixtureHeight,
    double RawThickness,
    Flip? Flip,
    ImmutableArray<SealedZone> Zones,
    ImmutableArray<CordLoop> Cords,
    ImmutableArray<MagnetPlace> Magnets,
    ImmutableArray<TrimCut> TrimCuts,
    ImmutableArray<Feature> Features,
    ImmutableArray<VacuumLink> VacuumPath,
    ImmutableArray<Region> Contact,
    string Label
)
{
    /// <summary>Zones of an outer land that hold the scrap skirt, not the part; numbered on from <see cref="Zones"/>.</summary>
    public ImmutableArray<SealedZone> SkirtZones { get; init; } = [];

    /// <summary>The skirt's cords: laid and cut like the others, but they bear no load of the part.</summary>
    public ImmutableArray<CordLoop> SkirtCords { get; init; } = [];

    /// <summary>The part's cords, then the skirt's: all that is cut from the roll and laid.</summary>
    public ImmutableArray<CordLoop> AllCords => Cords.AddRange(SkirtCords);

    /// <summary>All that may be taken from the block, feature by feature; plate frame, mm.</summary>
    public IEnumerable<Removal> Removals => Features.SelectMany(f => f.Removals);
}
