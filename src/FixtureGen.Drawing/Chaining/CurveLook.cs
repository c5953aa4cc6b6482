namespace FixtureGen.Drawing.Chaining;

/// <summary>Why a viewer or a plot does not show a curve; several may hold.</summary>
[Flags]
public enum Hiding
{
    /// <summary>It is shown and plotted.</summary>
    None = 0,

    /// <summary>Its layer is off.</summary>
    LayerOff = 1,

    /// <summary>Its layer, or that of a block round it, is frozen.</summary>
    LayerFrozen = 2,

    /// <summary>Its layer is not plotted.</summary>
    LayerNotPlotted = 4,

    /// <summary>It, or a block round it, is made invisible by itself.</summary>
    Invisible = 8,
}

/// <summary>How a curve is shown once its layer and the blocks round it have had their say.</summary>
/// <param name="Colour">As <see cref="FixtureGen.Model.DrawingColour"/> spells it.</param>
/// <param name="LineType">The line type's name, CONTINUOUS for a solid line.</param>
/// <param name="Broken">True for a line with gaps: dashed, dotted, a centre line.</param>
/// <param name="Hidden">Why it is not shown.</param>
public sealed record CurveLook(string Colour, string LineType, bool Broken, Hiding Hidden)
{
    /// <summary>A solid black line that is shown.</summary>
    public static CurveLook Plain { get; } = new("black", "CONTINUOUS", false, Hiding.None);
}
