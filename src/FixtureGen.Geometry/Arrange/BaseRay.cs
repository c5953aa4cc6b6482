using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Asks by a ray how often the loops wind about the right side of a run.</summary>
internal sealed class BaseRay(Runs runs, Twins twins, double snap)
{
    private readonly List<int> _found = [];
    private readonly HashSet<int> _onIt = [];
    private Cutter _cutter = null!;
    private int _countA;

    public void Begin(Cutter of, int inFirstSet)
    {
        _cutter = of;
        _countA = inFirstSet;
    }

    public (int A, int B) RightOf(int run)
    {
        int longest = runs.Longest(run);
        Curve piece = runs.Pieces.Items[longest];
        double aside = GatherTwins(run, longest);
        Point2 p = piece.Probe;
        Point2 heading = piece.TangentAt(p);
        bool steep = Math.Abs(heading.Y) >= Math.Abs(heading.X);
        _found.Clear();
        _cutter.Index.Touching(RayBox(p, steep, aside), _found);
        Point2 at = steep ? p : Ray.Swapped(p);
        // Seen in the mirror everything turns the other way, and right is left.
        bool rightIsAfter = steep ? heading.Y > 0 : heading.X < 0;
        Point2 beside = new(at.X + (rightIsAfter ? aside : -aside), at.Y);
        int a = 0;
        int b = 0;
        foreach (int i in _found)
        {
            ref readonly Curve curve = ref _cutter.LastRound.Items[i];
            Curve seen = steep ? curve : Ray.Swapped(curve);
            int turns = Ray.Turns(seen, _onIt.Contains(i) ? beside : at);
            if (_cutter.LastRound.Origins[i] < _countA)
            {
                a += turns;
            }
            else
            {
                b += turns;
            }
        }
        return steep ? (a, b) : (-a, -b);
    }

    /// <summary>Notes the curves that run through the piece; returns how far beside it is clear of them.</summary>
    private double GatherTwins(int run, int piece)
    {
        _onIt.Clear();
        _onIt.Add(runs.Pieces.Parents[piece]);
        int count = 0;
        for (int twin = twins.Next(run); twin != run; twin = twins.Next(twin))
        {
            _onIt.Add(runs.Pieces.Parents[runs.First(twin)]);
            count++;
        }
        return snap * (0.125 + (2 * count));
    }

    private static System.Runtime.Intrinsics.Vector256<double> RayBox(Point2 p, bool steep, double aside) =>
        PackedBox.Packed(
            steep
                ? new Box2(p.X - aside, p.Y, double.PositiveInfinity, p.Y)
                : new Box2(p.X, p.Y - aside, p.X, double.PositiveInfinity)
        );
}
