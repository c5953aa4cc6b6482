using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>One motion as read, mm. Arc is 0 for straight, 1 counter-clockwise, -1 clockwise; Sweep is positive radians.</summary>
internal readonly record struct ReadMotion(
    Point3 From,
    Point3 To,
    bool Rapid,
    int Arc,
    Point2 Centre,
    double Sweep,
    double FeedMmPerMin,
    int Tool,
    double RadiusMismatch
);

/// <summary>
/// A small reader of programs, written from NISTIR 6556 (3.3, 3.5.3, 3.5.16) for tests only; shares no code with the
/// writer or the judge. Words it does not know are an error.
/// </summary>
internal sealed partial class TinyReader(Control control)
{
    private static readonly int[] Plain = [17, 20, 21, 40, 49, 54, 55, 90, 94];

    private readonly double _unit = control.Unit == LengthUnit.Inch ? 25.4 : 1;
    private double _x = double.NaN;
    private double _y = double.NaN;
    private double _z = double.NaN;
    private double _feed;
    private int _motion = -1;
    private int _tool;
    private bool _oldZ;

    public List<ReadMotion> Motions { get; } = [];

    /// <summary>M codes in order, and the dwells as "G4" with their seconds.</summary>
    public List<string> Events { get; } = [];

    public TinyReader Read(string text)
    {
        foreach (string raw in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            string line = Comment().Replace(raw, "").Trim();
            if (line.Length == 0 || line == "%" || line[0] is 'O' or ':')
            {
                continue;
            }
            Line(
                [
                    .. Word()
                        .Matches(line)
                        .Select(m =>
                            (m.Groups[1].Value[0], double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture))
                        ),
                ],
                line
            );
        }
        return this;
    }

    private void Line((char Letter, double Value)[] words, string line)
    {
        Assert.Equal(
            line.Replace(" ", "", StringComparison.Ordinal),
            string.Concat(Word().Matches(line).Select(m => m.Value))
        );
        Dictionary<char, double> v = [];
        foreach ((char letter, double value) in words.Where(w => w.Letter is not ('G' or 'M')))
        {
            Assert.True(v.TryAdd(letter, value), $"{letter} twice: {line}");
        }
        int[] g = [.. words.Where(w => w.Letter == 'G').Select(w => (int)w.Value)];
        _tool = v.TryGetValue('T', out double t) && line.Contains("M6", StringComparison.Ordinal) ? (int)t : _tool;
        _pending = v.TryGetValue('T', out double p) ? (int)p : _pending;
        foreach (int m in words.Where(w => w.Letter == 'M').Select(w => (int)w.Value))
        {
            _tool = m == 6 ? _pending : _tool;
            Events.Add("M" + m.ToString(CultureInfo.InvariantCulture));
        }
        _feed = v.TryGetValue('F', out double f) ? f * _unit : _feed;
        if (g.Contains(53) || g.Contains(28))
        {
            (_x, _y, _z) = (double.NaN, double.NaN, double.NaN);
            _motion = g.Contains(53) ? 0 : _motion;
            return;
        }
        if (g.Contains(4))
        {
            double seconds = v[control.DwellWord[0]] / (control.Dwell == DwellUnit.Milliseconds ? 1000 : 1);
            Events.Add("G4 " + seconds.ToString(CultureInfo.InvariantCulture));
            return;
        }
        Modes(g, line);
        if (v.ContainsKey('X') || v.ContainsKey('Y') || v.ContainsKey('Z'))
        {
            Move(v, line);
        }
    }

    private int _pending;

    private void Modes(int[] g, string line)
    {
        foreach (int code in g)
        {
            if (code is 98 or 99)
            {
                _oldZ = code == 98;
            }
            else if (code is (>= 0 and <= 3) or 73 or 80 or 81 or 82 or 83)
            {
                _motion = code;
            }
            else
            {
                Assert.True(Plain.Contains(code) || code is 43 or 91, "unknown G word: " + line);
            }
        }
    }

    private void Move(Dictionary<char, double> v, string line)
    {
        Point3 from = new(_x, _y, _z);
        double tx = v.TryGetValue('X', out double a) ? a * _unit : _x;
        double ty = v.TryGetValue('Y', out double b) ? b * _unit : _y;
        double tz = v.TryGetValue('Z', out double c) ? c * _unit : _z;
        switch (_motion)
        {
            case 0:
            case 1:
                Go(new Point3(tx, ty, tz), _motion == 0);
                break;
            case 2:
            case 3:
                Assert.True(v.ContainsKey('X') && v.ContainsKey('Y'), "arc without X and Y: " + line);
                Arc(from, new Point3(tx, ty, tz), v);
                break;
            default:
                Assert.InRange(_motion, 73, 83);
                Cycle(tx, ty, tz, v);
                break;
        }
    }

    private void Go(Point3 to, bool rapid)
    {
        Motions.Add(new ReadMotion(new(_x, _y, _z), to, rapid, 0, default, 0, rapid ? 0 : _feed, _tool, 0));
        (_x, _y, _z) = (to.X, to.Y, to.Z);
    }

    private void Arc(Point3 from, Point3 to, Dictionary<char, double> v)
    {
        bool ccw = _motion == 3;
        Point2 centre = v.TryGetValue('R', out double r)
            ? ByRadius(from.Xy, to.Xy, r * _unit, ccw)
            : new Point2(from.X + (v['I'] * _unit), from.Y + (v['J'] * _unit));
        Point2 s = from.Xy - centre;
        Point2 e = to.Xy - centre;
        double turn = Math.Atan2(s.Cross(e), s.Dot(e)) * (ccw ? 1 : -1);
        double sweep = turn <= 1e-12 ? turn + (2 * Math.PI) : turn;
        double mismatch = Math.Abs(s.Length - e.Length);
        Motions.Add(new ReadMotion(from, to, false, ccw ? 1 : -1, centre, sweep, _feed, _tool, mismatch));
        (_x, _y, _z) = (to.X, to.Y, to.Z);
    }

    private static Point2 ByRadius(Point2 a, Point2 b, double r, bool ccw)
    {
        Point2 half = 0.5 * (b - a);
        double h2 = (r * r) - half.Dot(half);
        Assert.True(h2 > -1e-6 * r * r, "radius does not reach the end");
        double h = Math.Sqrt(Math.Max(0, h2)) * (ccw ? 1 : -1) * (r > 0 ? 1 : -1);
        return a + half + ((h / half.Length) * half.Left);
    }

    private void Cycle(double tx, double ty, double bottom, Dictionary<char, double> v)
    {
        double r = v['R'] * _unit;
        double before = _z;
        if (_z < r)
        {
            Go(new Point3(_x, _y, r), true);
        }
        Go(new Point3(tx, ty, _z), true);
        Go(new Point3(tx, ty, r), true);
        double q = v.TryGetValue('Q', out double peck) ? peck * _unit : double.MaxValue;
        for (double at = r; at > bottom + 1e-9; )
        {
            at = Math.Max(at - q, bottom);
            Go(new Point3(tx, ty, at), false);
            if (at > bottom + 1e-9)
            {
                if (_motion == 83)
                {
                    Go(new Point3(tx, ty, r), true);
                }
                Go(new Point3(tx, ty, Math.Min(r, at + 0.254)), true);
            }
        }
        if (_motion == 82)
        {
            Events.Add(
                "G4 "
                    + (v['P'] / (control.Dwell == DwellUnit.Milliseconds ? 1000 : 1)).ToString(
                        CultureInfo.InvariantCulture
                    )
            );
        }
        Go(new Point3(tx, ty, _oldZ ? Math.Max(before, r) : r), true);
    }

    [GeneratedRegex(@"\([^)]*\)|;.*$")]
    private static partial Regex Comment();

    [GeneratedRegex(@"([A-Z])([-+]?\d*\.?\d*)")]
    private static partial Regex Word();
}
