using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>Pieces put in order and joined by rapids at the hop height into one operation.</summary>
internal static class Joiner
{
    public static Operation Join(
        string name,
        ToolCut cutting,
        bool breaksPlateSeal,
        ImmutableArray<Piece> pieces,
        double hop,
        double clearance
    ) => Join(name, cutting, breaksPlateSeal, Route.Order(pieces), hop, clearance);

    /// <summary>Along a route that is already chosen.</summary>
    public static Operation Join(
        string name,
        ToolCut cutting,
        bool breaksPlateSeal,
        ImmutableArray<(Piece Piece, Way Way)> route,
        double hop,
        double clearance
    )
    {
        Point2 first = route[0].Way.Start;
        Pen pen = new(Point3.From(first, double.NaN));
        pen.Add(new RapidMove(Point3.From(first, clearance)));
        foreach ((_, Way way) in route)
        {
            pen.Rapid(Point3.From(way.Start, pen.At.Z));
            pen.RapidZ(hop);
            way.Cut(pen);
        }
        pen.RapidZ(clearance);
        CutData data = cutting.Data;
        return new Operation
        {
            Name = name,
            Kind = cutting.Kind,
            Tool = cutting.Tool,
            SpindleRpm = data.Rpm,
            FeedMmPerMin = data.Feed,
            StepDown = data.StepDown,
            StepOver = data.StepOver,
            LimitedBy = data.LimitedBy,
            Features = [.. route.Select(r => r.Piece.Feature).Distinct(StringComparer.Ordinal)],
            BreaksPlateSeal = breaksPlateSeal,
            Moves = pen.Moves,
        };
    }
}
