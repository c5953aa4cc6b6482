using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Writing;

/// <summary>A layer of a drawing to be written. Colour is the DXF colour index 1 to 255 (7 is black or white).</summary>
public sealed record DxfLayer(string Name, int Color);

/// <summary>Something to draw on a layer; lengths in mm.</summary>
public abstract record DxfItem(string Layer);

/// <summary>A closed polyline; arcs stay arcs.</summary>
public sealed record DxfLoop(string Layer, Contour Contour) : DxfItem(Layer);

/// <summary>An open polyline; arcs stay arcs.</summary>
public sealed record DxfPath(string Layer, OpenPath Path) : DxfItem(Layer);

/// <summary>Every segment as a LINE or ARC of its own.</summary>
public sealed record DxfSegments(string Layer, ImmutableArray<Segment> Segments) : DxfItem(Layer);

/// <summary>A CIRCLE.</summary>
public sealed record DxfCircle(string Layer, Point2 Centre, double Radius) : DxfItem(Layer);

/// <summary>A POINT.</summary>
public sealed record DxfPoint(string Layer, Point2 At) : DxfItem(Layer);

/// <summary>An ellipse or, with parameters other than 0 and 2 pi (radians, not angles), an arc of one.</summary>
public sealed record DxfEllipse(
    string Layer,
    Point2 Centre,
    Point2 MajorAxis,
    double Ratio,
    double FromParameter,
    double ToParameter
) : DxfItem(Layer);

/// <summary>A B-spline; knots are control points + degree + 1.</summary>
public sealed record DxfSpline(string Layer, int Degree, ImmutableArray<double> Knots, ImmutableArray<Point2> Points)
    : DxfItem(Layer);

/// <summary>One line of text from the left end of its baseline.</summary>
public sealed record DxfText(string Layer, string Text, Point2 At, double Height, double AngleDeg) : DxfItem(Layer);

/// <summary>A drawing to be written: Unit is what it says and what its numbers are in.</summary>
public sealed record DxfSheet(LengthUnit Unit, ImmutableArray<DxfLayer> Layers, ImmutableArray<DxfItem> Items);
