using FixtureGen.Model;

namespace FixtureGen.Holding;

internal static class Boxes
{
    public static bool Overlap(Box2 a, Box2 b) =>
        a.MinX <= b.MaxX && b.MinX <= a.MaxX && a.MinY <= b.MaxY && b.MinY <= a.MaxY;
}
