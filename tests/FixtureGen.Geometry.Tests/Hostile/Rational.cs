using System.Numerics;

namespace FixtureGen.Tests.Hostile;

/// <summary>A fraction without rounding; the denominator is above 0 and common factors stay in.</summary>
public readonly record struct Rational(BigInteger Over, BigInteger Under)
{
    /// <summary>Every finite double is a whole number times a power of two.</summary>
    public static Rational Exactly(double value)
    {
        long bits = BitConverter.DoubleToInt64Bits(value);
        int exponent = (int)((bits >> 52) & 0x7ff);
        BigInteger mantissa = (bits & 0xfffffffffffff) | (exponent > 0 ? 1L << 52 : 0);
        mantissa = bits < 0 ? -mantissa : mantissa;
        int power = Math.Max(exponent, 1) - 1075;
        return power >= 0 ? new(mantissa << power, 1) : Reduced(mantissa, -power);
    }

    public static Rational operator +(Rational a, Rational b) =>
        a.Under == b.Under
            ? new(a.Over + b.Over, a.Under)
            : new((a.Over * b.Under) + (b.Over * a.Under), a.Under * b.Under);

    public static Rational operator -(Rational a, Rational b) => a + new Rational(-b.Over, b.Under);

    public static Rational operator *(Rational a, Rational b) => new(a.Over * b.Over, a.Under * b.Under);

    public static Rational operator /(Rational a, Rational b) =>
        b.Over.Sign > 0 ? new(a.Over * b.Under, a.Under * b.Over) : new(-a.Over * b.Under, -(a.Under * b.Over));

    public int Sign => Over.Sign;

    public int CompareTo(Rational other) =>
        Under == other.Under ? Over.CompareTo(other.Over) : (Over * other.Under).CompareTo(other.Over * Under);

    /// <summary>The nearest double but for a unit in the last place.</summary>
    public double ToDouble()
    {
        if (Over.IsZero)
        {
            return 0;
        }
        int shift = (int)(Under.GetBitLength() - BigInteger.Abs(Over).GetBitLength()) + 64;
        BigInteger scaled = shift >= 0 ? (Over << shift) / Under : Over / (Under << -shift);
        return Math.ScaleB((double)scaled, -shift);
    }

    private static Rational Reduced(BigInteger over, int power)
    {
        while (power > 0 && over.IsEven && !over.IsZero)
        {
            over >>= 1;
            power--;
        }
        return over.IsZero ? new(0, 1) : new(over, BigInteger.One << power);
    }
}
