using FixtureGen.Model;

namespace FixtureGen.Verify.Carving;

internal enum CutterShape
{
    Flat,
    Ball,
    Cone,
}

/// <summary>
/// A cutter's outline, mm: Flat of radius Radius; Ball with a hemispherical end; Cone with a flat tip of radius TipRadius and
/// Slope mm of height per mm of radius (drill, engraver), cylindrical from Radius on.
/// </summary>
internal sealed record Cutter(Tool Tool, CutterShape Shape, double Radius, double TipRadius, double Slope)
{
    public static Cutter From(Tool tool) =>
        tool.Kind switch
        {
            ToolKind.BallMill => new Cutter(tool, CutterShape.Ball, tool.Diameter / 2, 0, 0),
            ToolKind.Drill or ToolKind.Engraver => new Cutter(
                tool,
                CutterShape.Cone,
                tool.Diameter / 2,
                tool.TipDiameter / 2,
                1 / Math.Tan(tool.TipAngleDeg * Math.PI / 360)
            ),
            ToolKind.EndMill or ToolKind.FaceMill => new Cutter(tool, CutterShape.Flat, tool.Diameter / 2, 0, 0),
        };

    /// <summary>Height of the cutting surface above the tip at a distance from the axis not over Radius.</summary>
    public double HeightAt(double distance) =>
        Shape switch
        {
            CutterShape.Flat => 0,
            CutterShape.Ball => Radius - Math.Sqrt(Math.Max(0, (Radius * Radius) - (distance * distance))),
            CutterShape.Cone => Math.Max(0, distance - TipRadius) * Slope,
        };

    /// <summary>Greatest radius of the cutter from its tip up to a height above it.</summary>
    public double RadiusAt(double height)
    {
        if (height <= 0)
        {
            return 0;
        }
        return Shape switch
        {
            CutterShape.Flat => Radius,
            CutterShape.Ball => height >= Radius
                ? Radius
                : Math.Sqrt(Math.Max(0, (Radius * Radius) - ((Radius - height) * (Radius - height)))),
            CutterShape.Cone => Math.Min(Radius, TipRadius + (height / Slope)),
        };
    }
}
