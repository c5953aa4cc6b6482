using System.Globalization;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>
/// The grades of ASTM D1056: the pressure, kPa, that squeezes a sponge by a quarter. A cord bought by grade may lie anywhere
/// in it, so a range inside one grade flatters the hold unless the roll itself was measured.
/// </summary>
internal static class SpongeGrades
{
    private const double KPaPerPsi = 6.894757;

    /// <summary>Files round to a tenth of a kPa.</summary>
    private const double Rounding = 0.1;

    /// <summary>psi at 25 %: grade 0 below 2, 1 to 5, 2 to 9, 3 to 13, 4 to 17, 5 to 25.</summary>
    private static readonly double[] Ends = [0, 2, 5, 9, 13, 17, 25];

    /// <summary>Warns of a range that is narrower than the grade that its middle lies in.</summary>
    public static void Check(TableReader t, double least, double greatest)
    {
        double middle = (least + greatest) / 2 / KPaPerPsi;
        int grade = Math.Clamp(Array.FindIndex(Ends, e => middle < e) - 1, 0, Ends.Length - 2);
        double from = Ends[grade] * KPaPerPsi;
        double to = Ends[grade + 1] * KPaPerPsi;
        bool within = grade > 0 && least > from + Rounding;
        if (within || greatest < to - Rounding)
        {
            t.Unusual(
                within ? "p25_min_kpa" : "p25_max_kpa",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{least:0.#} to {greatest:0.#} kPa is less than the whole of grade {grade}, {from:0.#} to {to:0.#} kPa (ASTM D1056): a cord bought by grade may lie anywhere in it."
                ),
                "Give the grade's ends, or measure your own roll and say so beside it in the file."
            );
        }
    }
}
