using FixtureGen.Geometry;

namespace FixtureGen.Drawing.Reading;

/// <summary>SPLINE: degree 71, knots 40, weights 41, control points 10, fit points 11, end tangents 12 and 13 (DXF Reference, SPLINE).</summary>
internal static class SplineReader
{
    /// <summary>Most points of one spline; the work for each is bounded, so this bounds the whole.</summary>
    public const int MostPoints = 20_000;

    public static Entity Read(EntityGroups groups)
    {
        // a helix goes on after its spline with numbers of its own under the same codes
        bool helix = groups.Type == "HELIX";
        int knotsSaid = helix ? groups.IntegerOr(72, 0) : int.MaxValue;
        int pointsSaid = helix ? groups.IntegerOr(73, 0) : int.MaxValue;
        var knots = new List<double>();
        var weights = new List<double>();
        var points = new PointList();
        var fits = new PointList();
        foreach (Group group in groups.All)
        {
            if (group.Code is not (40 or 41 or 10 or 20 or 30 or 11 or 21 or 31))
            {
                continue;
            }
            if (helix && group.Code is 10 or 11 or 41 && points.Count >= pointsSaid)
            {
                break;
            }
            if (group.Code == 40 && knots.Count >= knotsSaid)
            {
                continue;
            }
            if (groups.Value(group) is not { } value)
            {
                return EntityReader.Bad(groups);
            }
            switch (group.Code)
            {
                case 40:
                    knots.Add(value);
                    break;
                case 41:
                    weights.Add(value);
                    break;
                case 10 or 20 or 30:
                    points.Add((group.Code / 10) - 1, value);
                    break;
                default:
                    fits.Add((group.Code / 10) - 1, value);
                    break;
            }
        }
        if (points.Ragged || fits.Ragged)
        {
            return EntityReader.Bad(groups);
        }
        if (Math.Max(points.Count, fits.Count) > MostPoints)
        {
            return EntityReader.Bad(
                groups,
                DxfFindings.Text($"it has {Math.Max(points.Count, fits.Count)} points; at most {MostPoints} are read")
            );
        }
        int degree = groups.IntegerOr(71, 3);
        double[] w = weights.Count == 0 ? [.. Enumerable.Repeat(1.0, points.Count)] : [.. weights];
        if (points.Count == 0 && fits.Count < 2)
        {
            return EntityReader.Bad(groups, "it has no control points and fewer than two fit points");
        }
        if (points.Count > 0 && SplineArcs.Fault(degree, [.. knots], points.Count, w) is { } fault)
        {
            return EntityReader.Bad(groups, fault);
        }
        return new SplineEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Degree = degree,
            Knots = [.. knots],
            Points = points.ToArray(),
            Weights = w,
            FitPoints = fits.ToArray(),
            StartTangent = groups.Point(12),
            EndTangent = groups.Point(13),
            Closed = (groups.IntegerOr(70, 0) & 1) != 0,
        };
    }

    /// <summary>A spline by its control points; null where its numbers make none.</summary>
    public static SplineEntity? Make(
        EntityGroups groups,
        int degree,
        double[] knots,
        Vec3[] points,
        double[] weights
    ) =>
        points.Length > MostPoints || SplineArcs.Fault(degree, knots, points.Length, weights) is not null
            ? null
            : new SplineEntity
            {
                Type = groups.Type,
                Layer = groups.Layer,
                Line = groups.Line,
                Degree = degree,
                Knots = knots,
                Points = points,
                Weights = weights,
                FitPoints = [],
                StartTangent = null,
                EndTangent = null,
                Closed = false,
            };

    // X starts a point; Y and Z belong to the last one.
    private sealed class PointList
    {
        private readonly List<Vec3> _points = [];
        private int _ys;

        public int Count => _points.Count;

        public bool Ragged => _ys != _points.Count;

        public void Add(int axis, double value)
        {
            if (axis == 0)
            {
                _points.Add(new Vec3(value, 0, 0));
            }
            else if (_points.Count > 0 && axis == 1)
            {
                _points[^1] = _points[^1] with { Y = value };
                _ys++;
            }
            else if (_points.Count > 0)
            {
                _points[^1] = _points[^1] with { Z = value };
            }
        }

        public Vec3[] ToArray() => [.. _points];
    }
}
