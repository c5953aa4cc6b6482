using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>A box kept as (min X, min Y, -max X, -max Y), mm, so that one vector operation joins or compares two.</summary>
internal static class PackedBox
{
    /// <summary>True when two boxes have a point in common, their rims included.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool Touch(Vector256<double> a, Vector256<double> b) => Reaches(a, Opposite(b));

    /// <summary>The same, of the second box what <see cref="Opposite"/> makes of it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool Reaches(Vector256<double> a, Vector256<double> opposite) =>
        Vector256.LessThanOrEqualAll(a, opposite);

    /// <summary>(max X, max Y, -min X, -min Y): what another box's packed form must not exceed to touch this one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Opposite(Vector256<double> b) => -Vector256.Create(b.GetUpper(), b.GetLower());

    /// <summary>Squared distance of a packed point from a box; 0 inside.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Distance2(Vector256<double> box, Vector256<double> p)
    {
        Vector256<double> off = Vector256.Max(box - p, Vector256<double>.Zero);
        return Vector256.Sum(off * off);
    }

    /// <summary>A box without extent.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Packed(Point2 p)
    {
        Vector128<double> v = Vector128.Create(p.X, p.Y);
        return Vector256.Create(v, -v);
    }

    /// <summary>The box around two points.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Packed(Point2 p, Point2 q) => Vector256.Min(Packed(p), Packed(q));

    public static Vector256<double> Packed(in Box2 b) => Vector256.Create(b.MinX, b.MinY, -b.MaxX, -b.MaxY);

    public static Box2 Unpacked(Vector256<double> b) => new(b[0], b[1], -b[2], -b[3]);
}
