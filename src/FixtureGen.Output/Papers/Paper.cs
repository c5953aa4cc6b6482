using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

internal enum Fit
{
    Left,
    Right,
    Middle,
}

/// <summary>A table's column: its share of the width and where its text stands.</summary>
internal sealed record Column(string Head, double Share, Fit Fit);

/// <summary>
/// Pages of one paper, filled from the top. Lengths mm; Y is measured down from the top edge. A block that does not fit
/// starts the next page; page numbers are added at the end, when their count is known.
/// </summary>
internal sealed class Paper(double width, double height, string running)
{
    public const double Margin = 13;
    public const double Body = 3.15;
    private const double Small = 2.75;
    private const double Foot = 11;
    private static readonly Pen Hair = Pen.Solid(0.15, Colour.Grey(120));
    private static readonly Pen Rule = Pen.Solid(0.4, Colour.Black);

    private readonly List<Scene> _pages = [];

    public Scene Page => _pages[^1];

    public double Y { get; set; }

    public static double Left => Margin;

    public double Right => width - Margin;

    public bool IsShort => height < 290;

    public double Wide => width - (2 * Margin);

    /// <summary>Of the two papers a job may name; sizes of ISO 216 and ANSI/ASME Y14.1.</summary>
    public static Paper For(Job job, string running) =>
        string.Equals(job.Paper, "Letter", StringComparison.OrdinalIgnoreCase)
            ? new Paper(215.9, 279.4, running)
            : new Paper(210, 297, running);

    public Point2 PointAt(double x, double down) => new(x, height - down);

    public void NewPage()
    {
        _pages.Add(new Scene(width, height));
        Y = Margin;
        if (_pages.Count > 1)
        {
            Page.Text(running, PointAt(Left, Y + 2), TypeStyle.Plain(Small));
            Page.Line(PointAt(Left, Y + 4), PointAt(Right, Y + 4), Hair);
            Y += 8;
        }
    }

    /// <summary>Starts a page unless <paramref name="needed"/> mm are left on this one.</summary>
    public void Keep(double needed)
    {
        if (_pages.Count == 0 || Y + needed > height - Margin - Foot + 6)
        {
            NewPage();
        }
    }

    public void Heading(string text, double keepWith = 20)
    {
        Keep(10 + keepWith);
        Y += 7.2;
        Page.Text(text, PointAt(Left, Y), TypeStyle.Strong(4.1));
        Page.Line(PointAt(Left, Y + 1.6), PointAt(Right, Y + 1.6), Rule);
        Y += 3.2;
    }

    public void Text(string text, bool bold = false, double indent = 0)
    {
        TypeStyle type = bold ? TypeStyle.Strong(Body) : TypeStyle.Plain(Body);
        IReadOnlyList<string> lines = Typefaces.Wrap(text, type, Wide - indent);
        Keep(lines.Count * Body * 1.4);
        foreach (string line in lines)
        {
            Y += Body * 1.4;
            Page.Text(line, PointAt(Left + indent, Y), type);
        }
        Y += 0.8;
    }

    /// <summary>A line with a box to tick.</summary>
    public void Tick(string text)
    {
        TypeStyle type = TypeStyle.Plain(Body);
        IReadOnlyList<string> lines = Typefaces.Wrap(text, type, Wide - 7);
        Keep((lines.Count * Body * 1.4) + 1.5);
        Page.Shape(
            Chain.Box(new Box2(Left, height - Y - 4.9, Left + 3.5, height - Y - 1.4)),
            Pen.Solid(0.3, Colour.Black)
        );
        foreach (string line in lines)
        {
            Y += Body * 1.4;
            Page.Text(line, PointAt(Left + 6, Y), type);
        }
        Y += 1.5;
    }

    public void Table(IReadOnlyList<Column> columns, IEnumerable<IReadOnlyList<string>> rows) =>
        Table(columns, rows, Left, Wide);

    /// <summary>A ruled table; cells wrap, the head is repeated on a new page; a row shorter than the columns is bold and runs on.</summary>
    public void Table(IReadOnlyList<Column> columns, IEnumerable<IReadOnlyList<string>> rows, double left, double wide)
    {
        Y += 1;
        Keep(14);
        Row(columns, [.. columns.Select(c => c.Head)], left, wide, TypeStyle.Strong(Small));
        Page.Line(PointAt(left, Y), PointAt(left + wide, Y), Pen.Solid(0.3, Colour.Black));
        foreach (IReadOnlyList<string> row in rows)
        {
            int before = _pages.Count;
            TypeStyle type = row.Count < columns.Count ? TypeStyle.Strong(Small) : TypeStyle.Plain(Small);
            Keep(RowHeight(columns, row, wide, type));
            if (_pages.Count > before)
            {
                Row(columns, [.. columns.Select(c => c.Head)], left, wide, TypeStyle.Strong(Small));
                Page.Line(PointAt(left, Y), PointAt(left + wide, Y), Pen.Solid(0.3, Colour.Black));
            }
            Row(columns, row, left, wide, type);
            Page.Line(PointAt(left, Y), PointAt(left + wide, Y), Hair);
        }
        Y += 1.5;
    }

    /// <summary>Empty rows of a table to write in, over the whole width; shares of the columns as in its head, height mm.</summary>
    public void Lines(IEnumerable<double> shares, int rows, double tall)
    {
        Y -= 1.5;
        double[] wide = [.. shares];
        double top = Y;
        for (int i = 0; i < rows; i++)
        {
            Y += tall;
            Page.Line(PointAt(Left, Y), PointAt(Right, Y), Hair);
        }
        double x = Left;
        foreach (double share in wide[..^1])
        {
            x += share / wide.Sum() * Wide;
            Page.Line(PointAt(x, top), PointAt(x, Y), Hair);
        }
    }

    /// <summary>Name and value pairs, one a line, values at <paramref name="indent"/> from the left.</summary>
    public void Pairs(IEnumerable<(string Name, string Value)> pairs, double left, double wide, double indent)
    {
        foreach ((string name, string value) in pairs)
        {
            IReadOnlyList<string> lines = Typefaces.Wrap(value, TypeStyle.Plain(Body), wide - indent);
            Keep(lines.Count * Body * 1.4);
            double y = Y + (Body * 1.4);
            Page.Text(name, PointAt(left, y), new TypeStyle(Body - 0.25, false, Colour.Grey(70)));
            foreach (string line in lines)
            {
                Y += Body * 1.4;
                Page.Text(line, PointAt(left + indent, Y), TypeStyle.Plain(Body));
            }
            Y += 0.45;
        }
    }

    /// <summary>A place of <paramref name="tall"/> mm over the whole width, for a picture.</summary>
    public Box2 Place(double tall)
    {
        Keep(tall);
        Box2 box = new(Left, height - Y - tall, Right, height - Y);
        Y += tall;
        return box;
    }

    /// <summary>Adds the page numbers; call once, last.</summary>
    public IReadOnlyList<Scene> Finished()
    {
        for (int i = 0; i < _pages.Count; i++)
        {
            Point2 at = PointAt(Right, height - 8);
            _pages[i]
                .Text(
                    $"{Figures.Whole(i + 1)} / {Figures.Whole(_pages.Count)}",
                    at,
                    TypeStyle.Plain(Small),
                    Anchor.Right
                );
            _pages[i]
                .Text(
                    "An estimate is not a guarantee; local rules and qualified people decide.",
                    PointAt(Left, height - 8),
                    TypeStyle.Plain(Small)
                );
        }
        return _pages;
    }

    private static double RowHeight(
        IReadOnlyList<Column> columns,
        IReadOnlyList<string> cells,
        double wide,
        TypeStyle type
    ) => (Cells(columns, cells, wide, type).Max(l => l.Count) * type.Size * 1.32) + 1.1;

    private void Row(
        IReadOnlyList<Column> columns,
        IReadOnlyList<string> cells,
        double left,
        double wide,
        TypeStyle type
    )
    {
        IReadOnlyList<string>[] wrapped = Cells(columns, cells, wide, type);
        double unit = wide / columns.Sum(c => c.Share);
        double x = left;
        for (int i = 0; i < wrapped.Length; i++)
        {
            double w = columns[i].Share * unit;
            (double at, Anchor anchor) = columns[i].Fit switch
            {
                Fit.Right => (x + w, Anchor.Right),
                Fit.Middle => (x + (w / 2), Anchor.Middle),
                Fit.Left => (x + Indent(columns, i), Anchor.Left),
            };
            for (int k = 0; k < wrapped[i].Count; k++)
            {
                Page.Text(wrapped[i][k], PointAt(at, Y + ((k + 1) * type.Size * 1.32)), type, anchor);
            }
            x += w;
        }
        Y += RowHeight(columns, cells, wide, type);
    }

    /// <summary>A row shorter than the columns lets its last cell run on to the right edge.</summary>
    private static IReadOnlyList<string>[] Cells(
        IReadOnlyList<Column> columns,
        IReadOnlyList<string> cells,
        double wide,
        TypeStyle type
    )
    {
        double unit = wide / columns.Sum(c => c.Share);
        return
        [
            .. cells.Select(
                (c, i) =>
                {
                    int last = i == cells.Count - 1 ? columns.Count : i + 1;
                    double room = columns.Skip(i).Take(last - i).Sum(k => k.Share) * unit;
                    return Typefaces.Wrap(c, type, room - 1 - Indent(columns, i));
                }
            ),
        ];
    }

    private static double Indent(IReadOnlyList<Column> columns, int i) =>
        i > 0 && columns[i].Fit == Fit.Left && columns[i - 1].Fit == Fit.Right ? 3.5 : 0;
}
