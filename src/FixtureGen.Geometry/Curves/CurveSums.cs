using System.Runtime.CompilerServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Signed area, length and signed sweeps of a loop, or of several added up; mm2, mm, radians.</summary>
internal readonly record struct LoopSums(double Area, double Length, double Sweeps)
{
    public static LoopSums operator +(LoopSums a, LoopSums b) =>
        new(a.Area + b.Area, a.Length + b.Length, a.Sweeps + b.Sweeps);

    /// <summary>The same loop run backwards.</summary>
    public LoopSums Reversed => new(-Area, Length, -Sweeps);
}

/// <summary>Sums over the curves of a closed loop.</summary>
internal static class CurveSums
{
    // Below this sweep, radians, the difference of sweep and sine loses digits.
    private const double Small = 0.1;

    /// <summary>
    /// Signed area (counter-clockwise positive, Green's theorem, closed form for arcs), length, and the signed sweeps of all
    /// arcs added up; mm2, mm, radians.
    /// </summary>
    public static LoopSums Sum(ReadOnlySpan<Curve> loop)
    {
        if (loop.Length == 0)
        {
            return default;
        }
        var sum = new Adder(loop[0].A);
        foreach (ref readonly Curve c in loop)
        {
            if (c.Turn == 0)
            {
                sum.AddLine(c, Math.Sqrt(c.Chord2));
            }
            else
            {
                sum.AddArc(c);
            }
        }
        return sum.Sums;
    }

    /// <summary>Adds the curves of a loop one by one.</summary>
    /// <param name="origin">A point of the loop, from which it is measured, so that far coordinates do not cost digits.</param>
    public struct Adder(Point2 origin)
    {
        private double _area;
        private double _length;
        private double _sweeps;

        /// <summary>Of what was added so far.</summary>
        public readonly LoopSums Sums => new(_area / 2, _length, _sweeps);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void AddLine(in Curve c, double chord)
        {
            _area += (c.A - origin).Cross(c.B - origin);
            _length += chord;
        }

        public void AddArc(in Curve c)
        {
            double sweep = c.Sweep;
            _area += (c.A - origin).Cross(c.B - origin);
            _area += Bulge(c, sweep);
            _length += c.R * Math.Abs(sweep);
            _sweeps += sweep;
        }
    }

    /// <summary>Twice the area between an arc and its chord: r2 (sweep - sin sweep), small sweeps without the cancellation.</summary>
    private static double Bulge(in Curve c, double sweep)
    {
        double r2 = c.R * c.R;
        if (Math.Abs(sweep) > Small)
        {
            return (r2 * sweep) - (c.A - c.C).Cross(c.B - c.C);
        }
        double s2 = sweep * sweep;
        return r2 * sweep * s2 / 6 * (1 - (s2 / 20 * (1 - (s2 / 42 * (1 - (s2 / 72))))));
    }
}
