using FixtureGen.Model;
using FixtureGen.Verify;

namespace FixtureGen.Output;

/// <summary>
/// The block as the programs really cut it, seen from the operator's side at a slant: shaded by light, not coloured by
/// height, in the block's own material.
/// </summary>
public static class BlockPicture
{
    /// <summary>Height of the eye above the horizon: depth shows as the length of a wall, yet plan shapes stay readable.</summary>
    private const double EyeDeg = 58;

    private const double PixelsPerMm = 7;

    /// <summary>PNG bytes of <paramref name="block"/>; the design names the block's material and the fixture. A block that was cut from below is shown turned over as well.</summary>
    public static byte[] Png(BlockGrid block, FixtureDesign design)
    {
        BlockGrid[] sides = IsCutBelow(block) ? [block, Turned(block)] : [block];
        Colour tint = Tint(design.Placement.Blank.Material);
        double angle = EyeDeg * Math.PI / 180;
        Box2 box = block.Box;
        double tall = (box.Height * Math.Sin(angle)) + ((block.RawTopZ - block.RawBottomZ) * Math.Cos(angle));
        Scene scene = new(box.Width + 20, (sides.Length * (tall + 10)) + 20);
        for (int i = 0; i < sides.Length; i++)
        {
            double foot = 18 + ((sides.Length - 1 - i) * (tall + 10));
            scene.Image(new Box2(10, foot, 10 + box.Width, foot + tall), Render(sides[i], tint));
        }
        Scale(scene, new Point2(10, 10));
        string turned = sides.Length > 1 ? ", below it turned over left to right" : "";
        string caption =
            $"{design.Label}   block as cut, {design.Placement.Blank.Material}, seen from the front{turned}";
        Type type = Typefaces.Shrunk(caption, Type.Plain(3.6), box.Width - 55);
        scene.Text(caption, new Point2(10 + box.Width, 7), type, Anchor.Right);
        return SkiaDraw.Png(scene, PixelsPerMm);
    }

    private static bool IsCutBelow(BlockGrid block)
    {
        for (int i = 0; i < block.Bottom.Length; i++)
        {
            if (block.Bottom[i] > block.RawBottomZ + 0.05 && block.Bottom[i] < block.Top[i])
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>The block turned over left to right: what was the underside is the top.</summary>
    private static BlockGrid Turned(BlockGrid block)
    {
        BlockGrid turned = new(block.Box, block.Cell, block.RawBottomZ, block.RawTopZ);
        float sum = (float)(block.RawBottomZ + block.RawTopZ);
        for (int r = 0; r < block.Rows; r++)
        {
            for (int c = 0; c < block.Columns; c++)
            {
                int from = (r * block.Columns) + (block.Columns - 1 - c);
                int to = (r * block.Columns) + c;
                turned.Top[to] = sum - block.Bottom[from];
                turned.Bottom[to] = sum - block.Top[from];
            }
        }
        return turned;
    }

    private static void Scale(Scene scene, Point2 at)
    {
        for (int i = 0; i < 5; i++)
        {
            Box2 step = new(at.X + (i * 10), at.Y, at.X + ((i + 1) * 10), at.Y + 1.6);
            scene.Shape(Chain.Box(step), Pen.Solid(0.2, Colour.Black), i % 2 == 0 ? Colour.Black : Colour.White);
        }
        scene.Text("50 mm", at + new Point2(0, -4), Type.Plain(3.6));
    }

    /// <summary>Walks from the front row to the back one and paints what rises above what each column has painted already.</summary>
    internal static Pixels Render(BlockGrid block, Colour tint)
    {
        double sin = Math.Sin(EyeDeg * Math.PI / 180);
        double cos = Math.Cos(EyeDeg * Math.PI / 180);
        int width = block.Columns;
        float[] top = Solid(block);
        ReliefShade shade = new(top, block.Columns, block.Rows, block.Cell);
        float[] light = shade.Light();
        double thick = block.RawTopZ - block.RawBottomZ;
        int height = (int)Math.Ceiling(((block.Rows * block.Cell * sin) + (thick * cos)) / block.Cell);
        byte[] pixels = new byte[width * height * 4];
        Array.Fill(pixels, (byte)255);
        int[] painted = new int[width];
        for (int r = 0; r < block.Rows; r++)
        {
            for (int c = 0; c < width; c++)
            {
                int i = (r * width) + c;
                double y = ((r * block.Cell * sin) + ((top[i] - block.RawBottomZ) * cos)) / block.Cell;
                int to = Math.Min(height, (int)Math.Round(y + sin));
                if (to <= painted[c])
                {
                    continue;
                }
                int wall = Math.Min(to, (int)Math.Round(y));
                float face = wall > painted[c] + 1 ? shade.Wall(light, c, r) : light[i];
                float floor = top[i] <= block.RawBottomZ ? 0.1f : light[i];
                for (int p = painted[c]; p < to; p++)
                {
                    Put(pixels, (((height - 1 - p) * width) + c) * 4, tint, p < wall ? face * Along(p, wall) : floor);
                }
                painted[c] = to;
            }
        }
        return new Pixels(width, height, pixels);
    }

    /// <summary>The block from straight above, one pixel a cell, the back on top.</summary>
    internal static Pixels Plan(BlockGrid block, Colour tint)
    {
        float[] top = Solid(block);
        float[] light = new ReliefShade(top, block.Columns, block.Rows, block.Cell).Light();
        byte[] pixels = new byte[light.Length * 4];
        for (int r = 0; r < block.Rows; r++)
        {
            for (int c = 0; c < block.Columns; c++)
            {
                int i = (r * block.Columns) + c;
                float shade = top[i] <= block.RawBottomZ ? 0.1f : light[i];
                Put(pixels, (((block.Rows - 1 - r) * block.Columns) + c) * 4, tint, shade);
            }
        }
        return new Pixels(block.Columns, block.Rows, pixels);
    }

    /// <summary>A cell that was cut through from either side shows the dark below.</summary>
    private static float[] Solid(BlockGrid block)
    {
        float[] top = new float[block.Top.Length];
        for (int i = 0; i < top.Length; i++)
        {
            top[i] = block.Bottom[i] >= block.Top[i] ? (float)block.RawBottomZ : block.Top[i];
        }
        return top;
    }

    /// <summary>A wall darkens towards its foot.</summary>
    private static float Along(int painted, int wall) => Math.Clamp(1 - ((wall - painted) * 0.003f), 0.7f, 1);

    private static void Put(byte[] pixels, int at, Colour tint, float light)
    {
        float gleam = Math.Max(0, light - 1f) * 0.9f;
        pixels[at] = Level(tint.R, light, gleam);
        pixels[at + 1] = Level(tint.G, light, gleam);
        pixels[at + 2] = Level(tint.B, light, gleam);
        pixels[at + 3] = 255;
    }

    private static byte Level(byte tint, float light, float gleam) =>
        (byte)Math.Clamp((tint * light) + (255 * gleam), 0, 255);

    private static Colour Tint(string material) =>
        material.Contains("6061", StringComparison.OrdinalIgnoreCase)
        || material.Contains("alumin", StringComparison.OrdinalIgnoreCase)
            ? Colour.Of(0xC3C8CE)
            : Colour.Of(0xF3F0E6);
}
