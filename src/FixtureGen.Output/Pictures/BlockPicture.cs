using System.Numerics;
using System.Runtime.InteropServices;
using FixtureGen.Model;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// The block as the programs really cut it, seen from the operator's side at a slant: shaded by light, not coloured by
/// height, in the block's own material.
/// </summary>
public static class BlockPicture
{
    /// <summary>Height of the eye above the horizon: depth shows as the length of a wall, yet plan shapes stay readable.</summary>
    private const double EyeDeg = 58;

    /// <summary>A wall loses this much light for each pixel down from its upper edge.</summary>
    private const float WallDarkens = 0.006f;

    /// <summary>Least height to the cells before and behind of one that stands half way up a wall, mm.</summary>
    private const float EdgeStep = 0.3f;

    /// <summary>Light of a hole through the block, down to what lies under it.</summary>
    private const float Hole = 0.1f;

    /// <summary>As many as the grid has cells a millimetre, so that no cell is blurred into its neighbour.</summary>
    private const double PixelsPerMm = 5;

    /// <summary>PNG bytes of <paramref name="block"/>; the design names the block's material and the fixture. A block that was cut from below is shown turned over as well.</summary>
    public static byte[] Png(BlockGrid block, FixtureDesign design)
    {
        Tint tint = new(Material(design.Placement.Blank.Material));
        (Pixels Pixels, double Cell) above = Render(block, fromBelow: false, tint);
        (Pixels Pixels, double Cell)[] seen = IsCutBelow(block)
            ? [above, Render(block, fromBelow: true, tint)]
            : [above];
        byte[] png = SkiaDraw.Png(Draw(block.Box, design, seen), PixelsPerMm);
        foreach ((Pixels pixels, _) in seen)
        {
            pixels.Dispose();
        }
        return png;
    }

    private static Scene Draw(Box2 box, FixtureDesign design, (Pixels Pixels, double Cell)[] seen)
    {
        Scene scene = new(box.Width + 20, seen.Sum(s => (s.Pixels.Height * s.Cell) + 10) + 20);
        double foot = 18;
        foreach ((Pixels pixels, double cell) in seen.Reverse())
        {
            scene.Image(new Box2(10, foot, 10 + (pixels.Width * cell), foot + (pixels.Height * cell)), pixels);
            foot += (pixels.Height * cell) + 10;
        }
        Scale(scene, new Point2(10, 10));
        string turned = seen.Length > 1 ? ", below it turned over left to right" : "";
        string caption =
            $"{design.Label}   block as cut, {design.Placement.Blank.Material}, seen from the front{turned}";
        TypeStyle type = Typefaces.Shrunk(caption, TypeStyle.Plain(3.6), box.Width - 55);
        scene.Text(caption, new Point2(10 + box.Width, 7), type, Anchor.Right);
        return scene;
    }

    private static bool IsCutBelow(BlockGrid block)
    {
        if (block.IsBottomRaw)
        {
            return false;
        }
        float[] top = new float[block.Columns];
        float[] bottom = new float[block.Columns];
        float cut = (float)(block.RawBottomZ + 0.05);
        for (int row = 0; row < block.Rows; row++)
        {
            block.Bottom(row, bottom);
            if (bottom.AsSpan().ContainsAnyExceptInRange(float.MinValue, cut))
            {
                block.Top(row, top);
                if (bottom.Zip(top).Any(b => b.First > cut && b.First < b.Second))
                {
                    return true;
                }
            }
        }
        return false;
    }

    private static void Scale(Scene scene, Point2 at)
    {
        for (int i = 0; i < 5; i++)
        {
            Box2 step = new(at.X + (i * 10), at.Y, at.X + ((i + 1) * 10), at.Y + 1.6);
            scene.Shape(Chain.Box(step), Pen.Solid(0.2, Colour.Black), i % 2 == 0 ? Colour.Black : Colour.White);
        }
        scene.Text("50 mm", at + new Point2(0, -4), TypeStyle.Plain(3.6));
    }

    /// <summary>Walks from the front row to the back one and paints what rises above what each column has painted already.</summary>
    private static (Pixels Pixels, double Cell) Render(BlockGrid block, bool fromBelow, Tint tint)
    {
        using Heights grid = Heights.Borrow(block, fromBelow);
        (float sin, float cos) = MathF.SinCos((float)(EyeDeg * Math.PI / 180));
        float up = cos / (float)grid.Cell;
        float bottom = (float)block.RawBottomZ;
        using ReliefShade shade = new(grid);
        using Borrowed<float> lit = shade.Light();
        ReadOnlySpan<float> light = lit.Span;
        ReadOnlySpan<float> z = grid.Z;
        double thick = (block.RawTopZ - block.RawBottomZ) / grid.Cell;
        using Canvas canvas = new(grid.Columns, (int)Math.Ceiling((grid.Rows * sin) + (thick * cos)));
        for (int r = 0; r < grid.Rows; r++)
        {
            for (int c = 0; c < grid.Columns; c++)
            {
                int i = (r * grid.Columns) + c;
                if (c + Vector<float>.Count <= grid.Columns && IsPlain(canvas, grid, light, c, r, bottom, sin, up))
                {
                    c += Vector<float>.Count - 1;
                    continue;
                }
                float wall = (r * sin) + ((z[i] - bottom) * up);
                float painted = canvas.Painted(c);
                if (wall + sin <= painted)
                {
                    continue;
                }
                if (wall > painted)
                {
                    canvas.Paint(c, wall, wall > painted + 1 ? shade.Wall(light, c, r) : light[i], WallDarkens);
                }
                float top = IsWithinWall(grid, i) ? shade.Wall(light, c, r) : light[i];
                canvas.Paint(c, wall + sin, z[i] <= bottom ? Hole : top, 0);
            }
        }
        return (canvas.Pixels(tint), grid.Cell);
    }

    /// <summary>As many cells at once as a vector holds, where none shows a wall or all are hidden; false where they must be looked at one by one.</summary>
    private static bool IsPlain(
        Canvas canvas,
        Heights grid,
        ReadOnlySpan<float> light,
        int c,
        int r,
        float bottom,
        float sin,
        float up
    )
    {
        ReadOnlySpan<float> z = grid.Z;
        int i = (r * grid.Columns) + c;
        Vector<float> at = new(z[i..]);
        Vector<float> wall = new Vector<float>(r * sin) + ((at - new Vector<float>(bottom)) * up);
        Vector<float> top = wall + new Vector<float>(sin);
        Vector<float> painted = canvas.PaintedFrom(c);
        if (Vector.LessThanOrEqualAll(top, painted))
        {
            return true;
        }
        if (!Vector.LessThanOrEqualAll(wall, painted) || !Vector.GreaterThanAll(top, painted))
        {
            return false;
        }
        if (r > 0 && r < grid.Rows - 1)
        {
            Vector<float> rise = Vector.Min(
                new Vector<float>(z[(i + grid.Columns)..]) - at,
                at - new Vector<float>(z[(i - grid.Columns)..])
            );
            if (Vector.GreaterThanAny(rise, new Vector<float>(EdgeStep)))
            {
                return false;
            }
        }
        Vector<int> hole = Vector.LessThanOrEqual(at, new Vector<float>(bottom));
        return canvas.TryPaint(c, top, Vector.ConditionalSelect(hole, new Vector<float>(Hole), new(light[i..])));
    }

    /// <summary>A cell that an edge runs through stands half way up: its small top is a part of the wall.</summary>
    private static bool IsWithinWall(Heights grid, int i)
    {
        int front = i - grid.Columns;
        int behind = i + grid.Columns;
        return front >= 0
            && behind < grid.Z.Length
            && grid.Z[behind] - grid.Z[i] > EdgeStep
            && grid.Z[i] - grid.Z[front] > EdgeStep;
    }

    /// <summary>The block from straight above, one pixel a cell of the picture, the back on top.</summary>
    internal static Pixels Plan(BlockGrid block, Tint tint)
    {
        using Heights grid = Heights.Borrow(block, fromBelow: false);
        using ReliefShade shade = new(grid);
        using Borrowed<float> light = shade.Light();
        Pixels picture = new(grid.Columns, grid.Rows);
        Span<uint> pixels = MemoryMarshal.Cast<byte, uint>(picture.Bgra);
        for (int r = 0; r < grid.Rows; r++)
        {
            for (int c = 0; c < grid.Columns; c++)
            {
                int i = (r * grid.Columns) + c;
                uint seen = tint.Pixel(grid.Z[i] <= block.RawBottomZ ? Hole : light.Span[i]);
                pixels[((grid.Rows - 1 - r) * grid.Columns) + c] = seen;
            }
        }
        return picture;
    }

    private static Colour Material(string material) =>
        material.Contains("6061", StringComparison.OrdinalIgnoreCase)
        || material.Contains("alumin", StringComparison.OrdinalIgnoreCase)
            ? Colour.FromRgb(0xC3C8CE)
            : Colour.FromRgb(0xF3F0E6);
}
