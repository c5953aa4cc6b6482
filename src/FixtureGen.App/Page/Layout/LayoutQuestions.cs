using System.Text.Json.Serialization;

namespace FixtureGen.App.Page.Layout;

/// <summary>A magnet of the page, plate frame mm; a drawn one stands in the drawing and is not the page's to move.</summary>
internal readonly record struct PageMagnet
{
    public required double X { get; init; }

    public required double Y { get; init; }

    public bool Locked { get; init; }

    public bool Drawn { get; init; }
}

/// <summary>A fixed vacuum port of the page, plate frame mm.</summary>
internal readonly record struct PagePort
{
    public required double X { get; init; }

    public required double Y { get; init; }
}

/// <summary>Where the part lies: the drawing's origin in the plate frame, mm, and how far it is turned, degrees counter-clockwise.</summary>
internal readonly record struct PagePlacement
{
    public required double X { get; init; }

    public required double Y { get; init; }

    public required double AngleDeg { get; init; }
}

/// <summary>All settings of the page in the units that the page shows; what equals the job's own stays as the job has it.</summary>
internal sealed record PageSettings
{
    public required string Magnet { get; init; }

    public required int Count { get; init; }

    public required double Alarm { get; init; }

    public required double Altitude { get; init; }

    public required double Friction { get; init; }

    public required string Cutter { get; init; }

    public required double Feed { get; init; }
}

/// <summary>The layout that a question is about. Placement null is where the job has the part. Have is the keys of the curves that the page holds.</summary>
internal record LayoutQuestion
{
    public required PageMagnet[] Magnets { get; init; }

    public required PagePort[] Ports { get; init; }

    public required PageSettings Settings { get; init; }

    public PagePlacement? Placement { get; init; }

    public string[]? Have { get; init; }
}

/// <summary>Where the block is cut, plate frame mm.</summary>
internal readonly record struct PageLine
{
    public required double X0 { get; init; }

    public required double Y0 { get; init; }

    public required double X1 { get; init; }

    public required double Y1 { get; init; }
}

/// <summary>Asks for the block cut along a line.</summary>
internal sealed record SectionQuestion : LayoutQuestion
{
    public required PageLine Line { get; init; }
}

/// <summary>Asks where these magnets, by their numbers from 0, may stand: Which are moved to the nearest such place, or the ground of the first is told.</summary>
internal sealed record MagnetsQuestion : LayoutQuestion
{
    public required int[] Which { get; init; }
}

/// <summary>Asks to keep the layout under a name beside the job. Factors is what it came to, in words.</summary>
internal sealed record KeepQuestion : LayoutQuestion
{
    public required string Name { get; init; }

    public required string Factors { get; init; }
}

/// <summary>Asks to forget a layout that was kept, by its number in the list.</summary>
internal sealed record ForgetQuestion
{
    public required int Number { get; init; }
}

/// <summary>Asks to write the layout into the job. Hash is of the files as the page read them; Anyway also where clearances are not kept.</summary>
internal sealed record SaveQuestion : LayoutQuestion
{
    public required string Hash { get; init; }

    public required bool Anyway { get; init; }
}

/// <summary>Asks for all files of the job. Hash is of the files that the page shows: where the disk has others, nothing is made.</summary>
internal sealed record MakeQuestion
{
    public required string Hash { get; init; }
}

/// <summary>Questions and answers as JSON, without reflection. Strict: an unknown or repeated member, null where a value must be and a missing member are refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    AllowDuplicateProperties = false
)]
[JsonSerializable(typeof(LayoutQuestion))]
[JsonSerializable(typeof(SectionQuestion))]
[JsonSerializable(typeof(MagnetsQuestion))]
[JsonSerializable(typeof(KeepQuestion))]
[JsonSerializable(typeof(ForgetQuestion))]
[JsonSerializable(typeof(KeptLayouts))]
[JsonSerializable(typeof(GroundAnswer))]
[JsonSerializable(typeof(SaveQuestion))]
[JsonSerializable(typeof(MakeQuestion))]
[JsonSerializable(typeof(LayoutState))]
[JsonSerializable(typeof(TryAnswer))]
[JsonSerializable(typeof(PlacesAnswer))]
[JsonSerializable(typeof(SectionAnswer))]
[JsonSerializable(typeof(SavedAnswer))]
[JsonSerializable(typeof(StepAnswer))]
[JsonSerializable(typeof(BlockedAnswer))]
[JsonSerializable(typeof(PulseAnswer))]
internal sealed partial class LayoutJson : JsonSerializerContext;
