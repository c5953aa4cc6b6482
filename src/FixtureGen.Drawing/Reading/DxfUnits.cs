using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>$INSUNITS (DXF Reference, HEADER) and the unit names that people write.</summary>
public static class DxfUnits
{
    /// <summary>One unit in mm, exact.</summary>
    public static double Millimetres(LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Inch => Units.MmPerInch,
            LengthUnit.Foot => 12 * Units.MmPerInch,
            LengthUnit.Yard => 36 * Units.MmPerInch,
            LengthUnit.Mil => Units.MmPerInch / 1000,
            LengthUnit.Pixel => Units.MmPerInch / 96,
            LengthUnit.Micrometre => 0.001,
            LengthUnit.Millimetre => 1,
            LengthUnit.Centimetre => 10,
            LengthUnit.Decimetre => 100,
            LengthUnit.Metre => 1000,
            _ => throw new ArgumentOutOfRangeException(nameof(unit)),
        };

    /// <summary>Decimals of a length in that unit that leave it true to a ten-millionth of a mm: the kernel is true to a hundredth of that, and nobody cuts either.</summary>
    internal static int Decimals(LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Micrometre => 4,
            LengthUnit.Mil => 6,
            LengthUnit.Millimetre or LengthUnit.Pixel => 7,
            LengthUnit.Centimetre => 8,
            LengthUnit.Inch or LengthUnit.Decimetre => 9,
            LengthUnit.Foot or LengthUnit.Yard or LengthUnit.Metre => 10,
            _ => throw new ArgumentOutOfRangeException(nameof(unit)),
        };

    /// <summary>in, ft, yd, mil, px, um, mm, cm, dm or m.</summary>
    public static string Name(LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Inch => "in",
            LengthUnit.Foot => "ft",
            LengthUnit.Yard => "yd",
            LengthUnit.Mil => "mil",
            LengthUnit.Pixel => "px",
            LengthUnit.Micrometre => "um",
            LengthUnit.Millimetre => "mm",
            LengthUnit.Centimetre => "cm",
            LengthUnit.Decimetre => "dm",
            LengthUnit.Metre => "m",
            _ => throw new ArgumentOutOfRangeException(nameof(unit)),
        };

    /// <summary>The unit of a $INSUNITS value; null for 0 and for units that no part is drawn in.</summary>
    internal static LengthUnit? FromCode(int code) =>
        code switch
        {
            1 => LengthUnit.Inch,
            2 => LengthUnit.Foot,
            4 => LengthUnit.Millimetre,
            5 => LengthUnit.Centimetre,
            6 => LengthUnit.Metre,
            9 => LengthUnit.Mil,
            10 => LengthUnit.Yard,
            13 => LengthUnit.Micrometre,
            14 => LengthUnit.Decimetre,
            _ => null,
        };

    internal static int Code(LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Inch => 1,
            LengthUnit.Foot => 2,
            LengthUnit.Millimetre => 4,
            LengthUnit.Centimetre => 5,
            LengthUnit.Metre => 6,
            LengthUnit.Mil => 9,
            LengthUnit.Pixel => 0,
            LengthUnit.Yard => 10,
            LengthUnit.Micrometre => 13,
            LengthUnit.Decimetre => 14,
            _ => throw new ArgumentOutOfRangeException(nameof(unit)),
        };

    /// <summary>What a $INSUNITS value means that <see cref="FromCode"/> does not take; null for 0.</summary>
    internal static string? Unusual(int code) =>
        code switch
        {
            0 => null,
            3 => "miles",
            7 => "kilometres",
            8 => "microinches",
            11 => "angstroms",
            12 => "nanometres",
            15 => "decametres",
            16 => "hectometres",
            17 => "gigametres",
            18 => "astronomical units",
            19 => "light years",
            20 => "parsecs",
            21 => "US survey feet",
            22 => "US survey inches",
            23 => "US survey yards",
            24 => "US survey miles",
            _ => DxfFindings.Text($"code {code}, which the format does not know"),
        };
}
