using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>A vector in space, drawing units.</summary>
internal readonly record struct Vec3(double X, double Y, double Z)
{
    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vec3 operator *(Vec3 a, double k) => new(a.X * k, a.Y * k, a.Z * k);

    public Vec3 Cross(Vec3 o) => new((Y * o.Z) - (Z * o.Y), (Z * o.X) - (X * o.Z), (X * o.Y) - (Y * o.X));

    public double Length => Math.Sqrt((X * X) + (Y * Y) + (Z * Z));

    public Point2 Xy => new(X, Y);
}

/// <summary>p goes to Origin + X p.x + Y p.y + Z p.z.</summary>
internal readonly record struct Affine3(Vec3 X, Vec3 Y, Vec3 Z, Vec3 Origin)
{
    public static Affine3 Identity { get; } = new(new(1, 0, 0), new(0, 1, 0), new(0, 0, 1), default);

    public static Affine3 Scale(double x, double y, double z) => new(new(x, 0, 0), new(0, y, 0), new(0, 0, z), default);

    public static Affine3 Shift(Vec3 by) => Identity with { Origin = by };

    public static Affine3 TurnZ(double radians)
    {
        (double sin, double cos) = Math.SinCos(radians);
        return new(new(cos, sin, 0), new(-sin, cos, 0), new(0, 0, 1), default);
    }

    /// <summary>
    /// An entity's own axes in the world by the arbitrary-axis algorithm (DXF Reference, Arbitrary Axis Algorithm); the
    /// world's own for a normal of no length.
    /// </summary>
    public static Affine3 Facing(Vec3 normal)
    {
        double length = normal.Length;
        if (!(length > 1e-12) || !double.IsFinite(length))
        {
            return Identity;
        }
        Vec3 n = normal * (1 / length);
        bool nearZ = Math.Abs(n.X) < 1.0 / 64 && Math.Abs(n.Y) < 1.0 / 64;
        Vec3 x = (nearZ ? new Vec3(0, 1, 0) : new Vec3(0, 0, 1)).Cross(n);
        x *= 1 / x.Length;
        Vec3 y = n.Cross(x);
        return new(x, y * (1 / y.Length), n, default);
    }

    public Vec3 Apply(Vec3 p) => Origin + Turn(p);

    /// <summary>The direction without the shift.</summary>
    public Vec3 Turn(Vec3 v) => (X * v.X) + (Y * v.Y) + (Z * v.Z);

    /// <summary>First <paramref name="inner"/>, then this.</summary>
    public Affine3 After(Affine3 inner) => new(Turn(inner.X), Turn(inner.Y), Turn(inner.Z), Apply(inner.Origin));
}
