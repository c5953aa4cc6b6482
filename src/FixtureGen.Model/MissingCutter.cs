namespace FixtureGen.Model;

/// <summary>A cutter that the rack does not have, its diameter in mm, and the minutes that it would save on one block.</summary>
public sealed record MissingCutter(ToolKind Kind, double DiameterMm, double MinutesSaved);
