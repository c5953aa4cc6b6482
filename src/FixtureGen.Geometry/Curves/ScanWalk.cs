using FixtureGen.Model;

namespace FixtureGen.Geometry;

// What is found along the lines once all crossings are in.
internal sealed partial class ScanLines
{
    /// <summary>Puts the crossings of every line in order.</summary>
    public void Sort()
    {
        Growing.Reserve(ref _starts, _lines + 2);
        Growing.Reserve(ref _sorted, _count);
        Growing.Reserve(ref _sortedAt, _count);
        Array.Clear(_starts, 0, _lines + 2);
        for (int i = 0; i < _count; i++)
        {
            _starts[_crossings[i].Line + 2]++;
        }
        for (int i = 2; i < _lines + 2; i++)
        {
            _starts[i] += _starts[i - 1];
        }
        for (int i = 0; i < _count; i++)
        {
            int to = _starts[_crossings[i].Line + 1]++;
            _sorted[to] = i;
            _sortedAt[to] = _at[i];
        }
        for (int line = 0; line < _lines; line++)
        {
            SortLine(_starts[line], _starts[line + 1]);
        }
    }

    /// <summary>By insertion where few: a handful is in order before the library's sort has begun.</summary>
    private void SortLine(int first, int end)
    {
        if (end - first > Few)
        {
            Array.Sort(_sortedAt, _sorted, first, end - first);
            return;
        }
        for (int i = first + 1; i < end; i++)
        {
            double moving = _sortedAt[i];
            int crossing = _sorted[i];
            int j = i - 1;
            for (; j >= first && _sortedAt[j] > moving; j--)
            {
                _sortedAt[j + 1] = _sortedAt[j];
                _sorted[j + 1] = _sorted[j];
            }
            _sortedAt[j + 1] = moving;
            _sorted[j + 1] = crossing;
        }
    }

    /// <summary>False where some set's loops do not close along the line, which a line through a corner does.</summary>
    public bool Closes(int line)
    {
        Span<int> sums = stackalloc int[Sets];
        for (int i = _starts[line]; i < _starts[line + 1]; i++)
        {
            ref readonly Crossing c = ref _crossings[_sorted[i]];
            sums[c.Set] += c.Step;
        }
        return sums is [0, 0, 0];
    }

    /// <summary>False for a line that met nothing.</summary>
    public bool Crosses(int line) => _starts[line] < _starts[line + 1];

    /// <summary>The points so far before the first and after the last crossing of a line, which has some; mm.</summary>
    public (Point2 First, Point2 Last) Beyond(int line, double by) =>
        (On(line, _sortedAt[_starts[line]] - by), On(line, _sortedAt[_starts[line + 1] - 1] + by));

    private Point2 On(int line, double along) => _upright ? new(_levels[line], along) : new(along, _levels[line]);

    /// <summary>Walks along a line from stretch to stretch.</summary>
    public Walk Along(int line) => new(this, line);

    /// <summary>A walk along one line.</summary>
    internal struct Walk
    {
        private readonly ScanLines _lines;
        private readonly int _line;
        private readonly int _end;
        private int _next;
        private Windings3 _windings;

        internal Walk(ScanLines of, int which)
        {
            _lines = of;
            _line = which;
            _next = of._starts[which];
            _end = of._starts[which + 1];
        }

        /// <summary>Length of the stretch, mm.</summary>
        public double Width { get; private set; }

        /// <summary>The number of a curve of set 0 at one end of the stretch; -1 where there is none.</summary>
        public int Curve { get; private set; }

        /// <summary>The middle of the stretch.</summary>
        public Point2 Point { get; private set; }

        /// <summary>Winding number of a set's loops about the stretch.</summary>
        public readonly int Winding(int set) => _windings[set];

        /// <summary>Steps into the next stretch between two crossings.</summary>
        public bool MoveNext()
        {
            if (_next + 1 >= _end)
            {
                return false;
            }
            ref readonly Crossing from = ref _lines._crossings[_lines._sorted[_next]];
            _windings[from.Set] += from.Step;
            double a = _lines._sortedAt[_next];
            double b = _lines._sortedAt[_next + 1];
            _next++;
            ref readonly Crossing to = ref _lines._crossings[_lines._sorted[_next]];
            Curve =
                from.Set == 0 ? from.Curve
                : to.Set == 0 ? to.Curve
                : -1;
            Width = b - a;
            Point = _lines.On(_line, (a + b) / 2);
            return true;
        }
    }

    [System.Runtime.CompilerServices.InlineArray(Sets)]
    private struct Windings3
    {
        private int _first;
    }
}
