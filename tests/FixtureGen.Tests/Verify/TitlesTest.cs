using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// Jobs are called what shops call their parts. A part named M12 was refused for asking for a thread M12, and before that no choice of
/// the solver's passed, which said that nothing held it.
/// </summary>
public sealed class TitlesTest
{
    private static readonly Part Plate = MadePart.Plate(Contours.Circle(new Point2(60, 40), 8));

    [Theory]
    [InlineData("M12", "M12-1")]
    [InlineData("M8 bracket, 4 bolts", "MB-2")]
    [InlineData("Plate 150 x 90 mm", "P-1")]
    [InlineData("Tray without magnets", "TWM-1")]
    [InlineData("Bolt 1/4-20 tray rev 7", "BT-1")]
    [InlineData("Gauge 20 kPa", "REV-2")]
    [InlineData("Trim", "TRIM-1")]
    public void A_title_is_no_sentence_to_the_operator(string title, string fixture)
    {
        Job job = MadePart.Job with { Title = title, FixtureId = fixture };
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(Plate, job);
        Assert.Empty(MadePart.Errors(Plate, job, design, programs));

        // the same words anywhere else are still told
        ImmutableArray<ProgramText> edited =
        [
            .. programs.Select(p =>
                p with
                {
                    Text = p.Text.Replace(
                        "(PINS IN, BOLTS IN)",
                        "(PINS IN, BOLTS IN)\n(FIT 4 BOLTS M12)",
                        StringComparison.Ordinal
                    ),
                }
            ),
        ];
        Assert.NotEmpty(MadePart.Errors(Plate, job, design, edited));
    }
}
