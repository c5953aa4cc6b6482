using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>What kernels' repairs come to in words: one note a kind with the greatest amount.</summary>
public sealed class KernelNotesTest
{
    [Fact]
    public void Each_kind_that_changed_a_curve_is_told_once()
    {
        KernelRepair[] repairs =
        [
            new(RepairKind.FallBack, "offset", 0.0066),
            new(RepairKind.Perturbed, "union", 0.0000466),
            new(RepairKind.SideTest, "offset", 0),
            new(RepairKind.MicroEdges, "offset", 2),
            new(RepairKind.Perturbed, "offset", -0.0001),
            new(RepairKind.MicroEdges, "rings", 5),
        ];

        Finding[] notes = [.. KernelNotes.Of(repairs, "design")];

        Assert.Equal(
            [
                "geometry-micro-edges: edges under 0.000001 mm were left out, up to 5 at once",
                "geometry-perturbed: 2 results were moved by up to 0.0001 mm to clear exact coincidences",
                "geometry-fall-back: 1 results were redone on chords, up to 0.0066 mm off",
            ],
            notes.Select(n => n.Code + ": " + n.Message)
        );
        Assert.All(notes, n => Assert.Equal(("design", Severity.Note), (n.Where, n.Severity)));
    }
}
