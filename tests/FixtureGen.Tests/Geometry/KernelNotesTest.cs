using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>What kernels' repairs come to in words: only what leaves something out, once, with the greatest number.</summary>
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
}
