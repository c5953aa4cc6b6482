namespace FixtureGen.Shop.Jobs;

/// <summary>
/// Edges of a drawing that no cutter of the shop follows, which a fresh job asks about: inner corners tighter than the thinnest end mill,
/// and cutouts too small for one. Lengths in mm.
/// </summary>
public sealed record EdgeFacts
{
    /// <summary>Nothing is to be asked.</summary>
    public static EdgeFacts None { get; } = new();

    /// <summary>Inner corners that keep more than the house allows, whatever mills them.</summary>
    public int Corners { get; init; }

    /// <summary>What the end mill that reaches farthest leaves in the worst of them.</summary>
    public double CornerLeft { get; init; }

    /// <summary>That end mill.</summary>
    public string Cutter { get; init; } = "";

    /// <summary>Cutouts that no trim cutter fits into and that are not all drilled.</summary>
    public int SmallHoles { get; init; }

    /// <summary>The width of the narrowest of them.</summary>
    public double Narrowest { get; init; }

    /// <summary>Whether an end mill of the rack cuts all of them beside the trim cutter, so that nothing is to be asked.</summary>
    public bool SecondCutterDoes { get; init; }

    /// <summary>Whether all are round, so that each has a middle to mark for a drill.</summary>
    public bool AllRound { get; init; }

    /// <summary>Whether the shop has to say what becomes of the small cutouts.</summary>
    public bool AsksHoles => SmallHoles > 0 && !SecondCutterDoes;

    /// <summary>Whether the shop has to say what may stay in inner corners.</summary>
    public bool AsksCorners => Corners > 0;

    /// <summary>What is to be allowed for the corners to be cut, rounded up to a tenth.</summary>
    public double CornerToAllow => Math.Ceiling((CornerLeft - 1e-9) * 10) / 10;

    /// <summary>The question about the cutouts, in words.</summary>
    public string HolesInWords() =>
        FormattableString.Invariant(
            $"{(SmallHoles == 1 ? "a cutout" : FormattableString.Invariant($"{SmallHoles} cutouts, the narrowest"))} of {Narrowest:0.##} mm, under every cutter and drill of the rack: "
        )
        + (
            AllRound
                ? "spot (marked for a drill by hand) or leave (not cut)"
                : "leave (not cut); spot marks round ones alone"
        );

    /// <summary>The question about the corners, in words.</summary>
    public string CornersInWords() =>
        FormattableString.Invariant(
            $"what may stay in {(Corners == 1 ? "an inner corner" : FormattableString.Invariant($"{Corners} inner corners"))}: {Cutter} reaches farthest and leaves {CornerLeft:0.###} mm, so {CornerToAllow:0.#} mm lets it be made"
        );
}
