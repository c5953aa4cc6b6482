using System.Text.Json.Serialization;
using FixtureGen.App.Page.Jobs;

namespace FixtureGen.App.Page.Play;

/// <summary>A tool as it is drawn, mm. TipAngleDeg is 0 for a flat end.</summary>
internal sealed record PlayTool(
    int Number,
    string Name,
    double Diameter,
    double FluteLength,
    double ShankDiameter,
    double StickOut,
    double HolderDiameter,
    double TipAngleDeg
);

/// <summary>
/// A program as the judge reads it. Motions are ten numbers each: line, kind (0 rapid, 1 straight, 2 counter-clockwise, 3 clockwise),
/// from X Y Z, to X Y Z, tool, feed in mm/min, in the frame of the setup, mm; the arcs' centres are in Centres, X Y a motion. Box is
/// the blank's min X, min Y, max X, max Y.
/// </summary>
internal sealed record PlayAnswer
{
    /// <summary>underside, top or trim.</summary>
    public required string Setup { get; init; }

    /// <summary>Whether the judge passes it.</summary>
    public required bool Ok { get; init; }

    /// <summary>Lines of the program.</summary>
    public required int Lines { get; init; }

    /// <summary>As the judge counts them.</summary>
    public required double Minutes { get; init; }

    /// <summary>See above.</summary>
    public required double[] Box { get; init; }

    /// <summary>Z of the raw block's top.</summary>
    public required double RawTop { get; init; }

    /// <summary>X Y of every jacket that is dropped on the shell before this program; none but with the trim.</summary>
    public required double[] Jackets { get; init; }

    /// <summary>A jacket's diameter and height, and the height of the shell that it stands on, mm.</summary>
    public required double[] Jacket { get; init; }

    /// <summary>See above.</summary>
    public required double[] Motions { get; init; }

    /// <summary>See above.</summary>
    public required double[] Centres { get; init; }

    /// <summary>Those that the program uses and the job knows.</summary>
    public required PlayTool[] Tools { get; init; }

    /// <summary>With their lines.</summary>
    public required PlacedFinding[] Findings { get; init; }
}

/// <summary>Answers of the play-back as JSON, without reflection.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(PlayAnswer))]
internal sealed partial class PlayJson : JsonSerializerContext;
