using System.Runtime.CompilerServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Which way a line runs, or an arc in one quadrant of its circle, in a few bits, so that chains are gathered without another look at the curves.</summary>
internal static class Heading
{
    /// <summary>Curves with ends no farther apart than this (mm), and arcs that leave their quadrant, have to be looked at.</summary>
    public const double Long = Slack.LongEnough;

    /// <summary>The way of what has to be looked at.</summary>
    public const byte Unsteady = 16;

    private const int Right = 1;
    private const int Left = 2;
    private const int Up = 4;
    private const int Down = 8;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static byte From(Point2 a, Point2 b)
    {
        double x = b.X - a.X;
        double y = b.Y - a.Y;
        int way = (x > 0 ? Right : 0) | (x < 0 ? Left : 0) | (y > 0 ? Up : 0) | (y < 0 ? Down : 0);
        return (byte)((x * x) + (y * y) > Long * Long ? way : way | Unsteady);
    }

    public static byte From(in Curve c) => c.Turn == 0 || c.StaysInOneQuadrant() ? From(c.A, c.B) : Unsteady;

    /// <summary>True when curves that run these ways, put together, run on into one quadrant.</summary>
    public static bool IsOneQuadrant(int ways) =>
        (ways & (Right | Left)) != (Right | Left) && (ways & (Up | Down)) != (Up | Down);
}
