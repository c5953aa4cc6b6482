using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Small arithmetic of axis-parallel boxes, mm.</summary>
internal static class Boxes
{
    public static Box2 Outset(this Box2 box, double by) =>
        new(box.MinX - by, box.MinY - by, box.MaxX + by, box.MaxY + by);

    public static bool Contains(this Box2 box, Point2 p) =>
        p.X >= box.MinX && p.X <= box.MaxX && p.Y >= box.MinY && p.Y <= box.MaxY;

    public static bool Meets(this Box2 a, Box2 b) =>
        a.MinX < b.MaxX && b.MinX < a.MaxX && a.MinY < b.MaxY && b.MinY < a.MaxY;
}
