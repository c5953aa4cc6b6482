using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What a curve of the drawing is for.</summary>
public enum CurveRole
{
    /// <summary>The part's edge; loops inside it are cutouts.</summary>
    Outline,

    /// <summary>A hole that is cut through.</summary>
    Cutout,

    /// <summary>A line or text to engrave.</summary>
    Engrave,

    /// <summary>The edge of a form, which a [[form]] gives its height.</summary>
    Form,

    /// <summary>A magnet's place.</summary>
    Magnet,

    /// <summary>An area that nothing of the fixture may use.</summary>
    KeepOut,

    /// <summary>No part: dimensions, notes, frames. Nothing is said of it.</summary>
    Ignore,
}

/// <summary>A name in the drawing (layer, colour or line type) and the role of what bears it.</summary>
/// <param name="Name">Matched without case. A colour as <see cref="DrawingColour"/> spells it.</param>
/// <param name="Stated">True where the job says so, false for the house's own layer name.</param>
public sealed record RoleName(CurveRole Role, string Name, bool Stated);

/// <summary>How a drawing's curves get their roles: by line type before colour before layer, and what is to be ignored before all.</summary>
/// <param name="Layers">By layer; the house's name for each role of which the job says nothing.</param>
/// <param name="Colours">By colour; only what the job states.</param>
/// <param name="LineTypes">By line type; only what the job states.</param>
/// <param name="Invisible">True where the job wants curves that the drawing makes invisible one by one.</param>
public sealed record DrawingRoles(
    ImmutableArray<RoleName> Layers,
    ImmutableArray<RoleName> Colours,
    ImmutableArray<RoleName> LineTypes,
    bool Invisible
)
{
    /// <summary>The widest gap that a job may have closed, mm: a wider one is no slip of the pen (common practice, no source).</summary>
    public const double WidestJoin = 0.5;

    /// <summary>The house's layer names, OUTLINE to KEEPOUT, and nothing else.</summary>
    public static DrawingRoles House { get; } =
        new(
            [
                .. Enum.GetValues<CurveRole>()
                    .Where(r => r != CurveRole.Ignore)
                    .Select(r => new RoleName(r, r.ToString().ToUpperInvariant(), false)),
            ],
            [],
            [],
            false
        );
}
