using System.Collections.Immutable;
using System.Text.Json.Serialization;
using FixtureGen.Model;

namespace FixtureGen.Dxf;

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
    public sealed record ClosedLoop(double AreaMm2, double PerimeterMm, int Depth, string Layer, bool Clean);

    public sealed record Chain(double LengthMm, double GapMm, double[] From, double[] To, string Layer);

    public sealed record Trouble(string Code, string Severity, string Where, string Message, string Remedy);

    /// <summary>True when at least one clean closed outline was found: then the command's exit code is 0, else 1.</summary>
    [JsonIgnore]
    public bool HasCleanOutline => Loops.Any(l => l.Clean);

    /// <summary>The report of a read, or of a refused one (its findings alone).</summary>
    public static DrawingReport Of(string file, Stage<Drawing> read)
    {
        ImmutableArray<Repair> repairs = read.Value?.Repairs ?? [];
        HashSet<string> repaired = [.. repairs.Select(r => r.Code)];
        return new DrawingReport(
            file,
            read.Value?.Version,
            read.Value?.Unit is { } unit ? DxfUnits.Name(unit) : null,
            read.Value?.Entities ?? ImmutableSortedDictionary<string, int>.Empty,
            [.. (read.Value?.Loops ?? []).Select(Of)],
            [.. (read.Value?.Open ?? []).Select(Of)],
            repairs,
            [.. read.Findings.Where(f => f.Severity != Severity.Note || !repaired.Contains(f.Code)).Select(Of)]
        );
    }

    private static ClosedLoop Of(DrawnLoop loop) =>
        new(loop.AreaMm2, loop.PerimeterMm, loop.Depth, loop.Layer, loop.Clean);

    private static Chain Of(OpenChain chain) =>
        new(
            chain.LengthMm,
            chain.GapMm,
            [chain.Path.Start.X, chain.Path.Start.Y],
            [chain.Path.End.X, chain.Path.End.Y],
            chain.Layer
        );

    private static Trouble Of(Finding finding) =>
        new(
            finding.Code,
            finding.Severity switch
            {
                Severity.Error => "error",
                Severity.Warning => "warning",
                _ => "note",
            },
            finding.Where,
            finding.Message,
            finding.Remedy
        );
}
