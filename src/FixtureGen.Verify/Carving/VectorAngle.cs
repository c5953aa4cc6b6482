using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Angles of eight points at once, radians. The arc tangent on 0..1 is an odd polynomial whose error stays below 1e-5 (held by a
/// test against the library's own function), a hundredth of a micrometre of height on a helix of usual pitch.
/// </summary>
internal static class VectorAngle
{
    public static Vector256<float> Atan2(Vector256<float> y, Vector256<float> x)
    {
        Vector256<float> ax = Vector256.Abs(x);
        Vector256<float> ay = Vector256.Abs(y);
        Vector256<float> small = Vector256.Min(ax, ay);
        Vector256<float> large = Vector256.Max(Vector256.Max(ax, ay), Vector256.Create(1e-20f));
        Vector256<float> angle = Atan(small / large);
        Vector256<float> steep = Vector256.GreaterThan(ay, ax);
        angle = Vector256.ConditionalSelect(steep, Vector256.Create(MathF.PI / 2) - angle, angle);
        Vector256<float> behind = Vector256.LessThan(x, Vector256<float>.Zero);
        angle = Vector256.ConditionalSelect(behind, Vector256.Create(MathF.PI) - angle, angle);
        Vector256<float> below = Vector256.LessThan(y, Vector256<float>.Zero);
        return Vector256.ConditionalSelect(below, -angle, angle);
    }

    /// <summary>Arc cosine of values from -1 to 1.</summary>
    public static Vector256<float> Acos(Vector256<float> c)
    {
        Vector256<float> sine = Vector256.Sqrt(Vector256.Max(Vector256<float>.One - (c * c), Vector256<float>.Zero));
        return Atan2(sine, c);
    }

    private static Vector256<float> Atan(Vector256<float> t)
    {
        Vector256<float> s = t * t;
        Vector256<float> p = Vector256.Create(-0.0117212f);
        p = (p * s) + Vector256.Create(0.05265332f);
        p = (p * s) + Vector256.Create(-0.11643287f);
        p = (p * s) + Vector256.Create(0.19354346f);
        p = (p * s) + Vector256.Create(-0.33262347f);
        p = (p * s) + Vector256.Create(0.99997726f);
        return p * t;
    }
}
