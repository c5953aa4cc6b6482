using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>What kernels' repairs come to in words: only what leaves something out or moves it, once, with the greatest number.</summary>
public sealed class KernelNotesTest
{
    [Fact]
    public void Micro_edges_are_noted_once_and_what_changes_nothing_not_at_all()
    {
        KernelRepair[] repairs =
        [
            new(RepairKind.FallBack, "offset", 0),
            new(RepairKind.Snapped, "union", 1e-7),
            new(RepairKind.SideTest, "offset", 0),
            new(RepairKind.MicroEdges, "offset", 2),
            new(RepairKind.MicroEdges, "rings", 5),
        ];

        Finding note = Assert.Single(KernelNotes.Notes(repairs, "design"));

        Assert.Equal(("geometry-micro-edges", "design", Severity.Note), (note.Code, note.Where, note.Severity));
        Assert.Equal("edges under 0.000001 mm were left out, up to 5 at once", note.Message);
        Assert.Empty(KernelNotes.Notes([.. repairs.Take(3)], "design"));
    }

    [Fact]
    public void Arcs_moved_by_more_than_the_grid_are_noted_once_with_the_farthest_move()
    {
        KernelRepair[] repairs =
        [
            new(RepairKind.Recentred, "offset", 9e-7),
            new(RepairKind.Recentred, "offset", 0.00025),
            new(RepairKind.Recentred, "union", 0.0004),
        ];

        Finding note = Assert.Single(KernelNotes.Notes(repairs, "toolpaths"));

        Assert.Equal(("geometry-recentred", "toolpaths", Severity.Note), (note.Code, note.Where, note.Severity));
        Assert.Equal(
            "arcs whose ends did not fit their radius were led through both ends, which moved them by up to 0.0004 mm",
            note.Message
        );
        Assert.Empty(KernelNotes.Notes([repairs[0]], "toolpaths"));
    }

    /// <summary>A drawing's rounding to three decimals: the note comes from a kernel's work, not from a made-up repair.</summary>
    [Fact]
    public void An_arc_that_misses_its_end_is_noted()
    {
        Region slot = Region.From(
            new([
                Segment.Line(new(0, 0), new(20, 0)),
                Segment.Arc(new(20, 0), new(20, 10), new(20, 5.0003), ccw: true),
                Segment.Line(new(20, 10), new(0, 10)),
                Segment.Line(new(0, 10), new(0, 0)),
            ])
        );
        Kernel kernel = new(Tolerances.House);

        kernel.Offset(slot, 2);

        Assert.Equal("geometry-recentred", Assert.Single(KernelNotes.Notes(kernel.Repairs, "design")).Code);
    }
}
