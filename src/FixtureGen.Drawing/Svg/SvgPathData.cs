using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>One subpath: pieces end to end, in user units.</summary>
/// <param name="Pieces">Lines, arcs and splines.</param>
/// <param name="Closed">True where a closepath ends it.</param>
internal sealed record SvgSubpath(List<SvgPiece> Pieces, bool Closed);

/// <summary>A piece by its points: two for a line, three or four for a quadratic or cubic Bezier; an arc has two and itself.</summary>
internal sealed record SvgPiece(Point2[] Points, SvgArc? Arc);

/// <summary>Path data (SVG 2, 9.3): every command, absolute and relative, repeated without its letter, smooth ones reflecting the handle before.</summary>
internal sealed class SvgPathData
{
    /// <summary>Most pieces of one path.</summary>
    private const int MostPieces = 200_000;

    private readonly SvgNumbers _numbers;
    private readonly List<SvgSubpath> _paths = [];
    private List<SvgPiece> _pieces = [];
    private Point2 _at;
    private Point2 _start;
    private Point2? _cubicHandle;
    private Point2? _quadraticHandle;

    private SvgPathData(string data) => _numbers = new SvgNumbers(data);

    /// <summary>The subpaths; null with what is wrong.</summary>
    public static List<SvgSubpath>? Read(string data, out string fault)
    {
        var path = new SvgPathData(data);
        fault = path.Run() ?? "";
        path.End(false);
        return fault.Length == 0 ? path._paths : null;
    }

    private string? Run()
    {
        char? before = null;
        int count = 0;
        while (!_numbers.AtEnd)
        {
            char? letter = _numbers.Letter();
            if (before is null && letter is not ('M' or 'm'))
            {
                return letter is null && count == 0 && _numbers.Rest.Trim() == "none"
                    ? null
                    : "its data does not start with M";
            }
            // numbers behind a moveto are lines
            char? command =
                letter
                ?? (
                    before is 'M' ? 'L'
                    : before is 'm' ? 'l'
                    : before is 'Z' or 'z' ? null
                    : before
                );
            if (command is not { } known || !Command(known))
            {
                return $"its data cannot be read at '{Short(_numbers.Rest)}'";
            }
            before = command;
            if (++count > MostPieces)
            {
                return DxfFindings.Text($"it has more than {MostPieces} pieces");
            }
        }
        return null;
    }

    private bool Command(char letter)
    {
        Point2 from = char.IsAsciiLetterLower(letter) ? _at : default;
        (Point2? cubic, Point2? quadratic) = (_cubicHandle, _quadraticHandle);
        (_cubicHandle, _quadraticHandle) = (null, null);
        switch (char.ToUpperInvariant(letter))
        {
            case 'Z':
                if (_at != _start)
                {
                    Add([_at, _start]);
                }
                End(true);
                _at = _start;
                return true;
            case 'M' when Point(from) is { } to:
                End(false);
                (_at, _start) = (to, to);
                return true;
            case 'L' when Point(from) is { } to:
                return Add([_at, to]);
            case 'H' when _numbers.Next() is { } x:
                return Add([_at, new Point2(from.X + x, _at.Y)]);
            case 'V' when _numbers.Next() is { } y:
                return Add([_at, new Point2(_at.X, from.Y + y)]);
            case 'C' when Point(from) is { } a && Point(from) is { } b && Point(from) is { } to:
                _cubicHandle = b;
                return Add([_at, a, b, to]);
            case 'S' when Point(from) is { } b && Point(from) is { } to:
                Point2 first = cubic is { } c ? (2 * _at) - c : _at;
                _cubicHandle = b;
                return Add([_at, first, b, to]);
            case 'Q' when Point(from) is { } a && Point(from) is { } to:
                _quadraticHandle = a;
                return Add([_at, a, to]);
            case 'T' when Point(from) is { } to:
                Point2 handle = quadratic is { } q ? (2 * _at) - q : _at;
                _quadraticHandle = handle;
                return Add([_at, handle, to]);
            case 'A':
                return Arc(from);
            default:
                return false;
        }
    }

    private bool Arc(Point2 from)
    {
        if (
            _numbers.Next() is not { } rx
            || _numbers.Next() is not { } ry
            || _numbers.Next() is not { } turn
            || _numbers.Flag() is not { } large
            || _numbers.Flag() is not { } sweep
            || Point(from) is not { } to
        )
        {
            return false;
        }
        return Add([_at, to], SvgArc.Make(_at, to, rx, ry, turn, large, sweep));
    }

    private bool Add(Point2[] points, SvgArc? arc = null)
    {
        _pieces.Add(new SvgPiece(points, arc));
        _at = points[^1];
        return true;
    }

    private void End(bool closed)
    {
        if (_pieces.Count > 0)
        {
            _paths.Add(new SvgSubpath(_pieces, closed));
            _pieces = [];
        }
    }

    private Point2? Point(Point2 from) =>
        _numbers.Next() is { } x && _numbers.Next() is { } y ? new Point2(from.X + x, from.Y + y) : null;

    private static string Short(string text) => text.Length <= 12 ? text : text[..12];
}
