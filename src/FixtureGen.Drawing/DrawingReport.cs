using System.Collections.Immutable;
using System.Text.Json.Serialization;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing;

/// <summary>What <c>check DRAWING.dxf --json</c> prints; the property names are its keys in camel case. Lengths are mm, or drawing units while Unit is null.</summary>
public sealed record DrawingReport(
    string File,
    string? Version,
    string? Unit,
    ImmutableSortedDictionary<string, int> Entities,
    ImmutableArray<DrawingReport.ClosedLoop> Loops,
    ImmutableArray<DrawingReport.Chain> Open,
    ImmutableArray<Repair> Repairs,
    ImmutableArray<DrawingReport.Trouble> Findings
)
{
    /// <summary>What a fresh job makes of the drawing; null where it refuses it.</summary>
    public required PartRead? Part { get; init; }

    /// <summary>What a fresh job makes of the drawing, by its layers where they are named for roles, else by nesting.</summary>
    /// <param name="Cutouts">Holes through the part.</param>
    /// <param name="KeepOuts">Areas kept free.</param>
    /// <param name="Magnets">Magnet places drawn.</param>
    /// <param name="Engravings">Lines and texts to engrave.</param>
    public sealed record PartRead(int Cutouts, int KeepOuts, int Magnets, int Engravings);

    /// <summary>A closed loop of the drawing, over all layers.</summary>
    /// <param name="AreaMm2">The loop's own area, above 0: holes are not taken off.</param>
    /// <param name="PerimeterMm">Length once round.</param>
    /// <param name="Depth">How many loops lie round it; 0 is outermost, odd is a hole.</param>
    /// <param name="Layer">The layer it was drawn on; of several, the first by name.</param>
    /// <param name="Clean">False where the loop crosses or touches itself.</param>
    public sealed record ClosedLoop(double AreaMm2, double PerimeterMm, int Depth, string Layer, bool Clean);

    /// <summary>A chain of curves that does not close.</summary>
    /// <param name="LengthMm">Length along the chain.</param>
    /// <param name="GapMm">From end to end, or to the nearest other chain's end where that is nearer.</param>
    /// <param name="From">X and Y of its start in the drawing's axes.</param>
    /// <param name="To">X and Y of its end in the drawing's axes.</param>
    /// <param name="Layer">The layer it was drawn on.</param>
    public sealed record Chain(double LengthMm, double GapMm, double[] From, double[] To, string Layer);

    /// <summary>A finding about the drawing. What was put right without doubt stands in Repairs instead.</summary>
    /// <param name="Code">The short stable word of README's table.</param>
    /// <param name="Severity">note, warning or error.</param>
    /// <param name="Where">The file, with line or place where one is known.</param>
    /// <param name="Message">What is wrong and by how much.</param>
    /// <param name="Remedy">What to do; never empty.</param>
    public sealed record Trouble(string Code, string Severity, string Where, string Message, string Remedy);

    /// <summary>True when at least one clean closed outline was found, whatever its layer: then the command's exit code is 0, else 1.</summary>
    [JsonIgnore]
    public bool HasCleanOutline => Loops.Any(l => l.Clean);

    /// <summary>True where a job can use the drawing as it is: the very verdict of make and check.</summary>
    public bool Fit => Part is not null;

    /// <summary>The report of a read, or of a refused one (its findings alone), and of the part that a fresh job makes of it.</summary>
    /// <param name="file">The name shown.</param>
    /// <param name="read">The drawing.</param>
    /// <param name="part">What PartBuilder made of it; null where the drawing was refused.</param>
    /// <param name="findings">Of both, in order.</param>
    public static DrawingReport Describe(
        string file,
        Stage<DrawingContent> read,
        Stage<Part>? part,
        IEnumerable<Finding> findings
    )
    {
        ImmutableArray<Repair> repairs = read.Value?.Repairs ?? [];
        HashSet<string> repaired = [.. repairs.Select(r => r.Code)];
        return new DrawingReport(
            file,
            read.Value?.Version,
            read.Value?.Unit is { } unit ? DxfUnits.Name(unit) : null,
            read.Value?.Entities ?? ImmutableSortedDictionary<string, int>.Empty,
            [.. (read.Value?.Loops ?? []).Select(Describe)],
            [.. (read.Value?.Open ?? []).Select(Describe)],
            repairs,
            [.. findings.Where(f => f.Severity != Severity.Note || !repaired.Contains(f.Code)).Select(Describe)]
        )
        {
            Part = part is { Ok: true, Value: { } p } ? Describe(p) : null,
        };
    }

    private static PartRead Describe(Part part) =>
        new(part.Cutouts.Length, part.KeepOuts.Length, part.MagnetWishes.Length, part.Engravings.Length);

    private static ClosedLoop Describe(DrawnLoop loop) =>
        new(loop.AreaMm2, loop.PerimeterMm, loop.Depth, loop.Layer, loop.Clean);

    private static Chain Describe(OpenChain chain) =>
        new(
            chain.LengthMm,
            chain.GapMm,
            [chain.Path.Start.X, chain.Path.Start.Y],
            [chain.Path.End.X, chain.Path.End.Y],
            chain.Layer
        );

    private static Trouble Describe(Finding f) => new(f.Code, Words.For(f.Severity), f.Where, f.Message, f.Remedy);
}
