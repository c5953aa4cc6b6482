using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class BlockPictureTest
{
    [Fact]
    public void The_same_block_gives_the_same_bytes()
    {
        Job job = SampleJob.Create();
        FixtureDesign design = SampleDesign.Create(job);
        BlockGrid block = SampleBlock.Carve(design, Looked.Wanted ? 0.1 : 0.4);
        byte[] png = BlockPicture.Png(block, design);
        Looked.At("block.png", png);
        Assert.Equal(png, BlockPicture.Png(block, design));
    }

    /// <summary>Light from the upper left, as drawings have it: a pocket's far right floor is brighter than its near left one, which lies in shadow.</summary>
    [Fact]
    public void Pockets_are_shaded_not_coloured_by_height()
    {
        const double cell = 0.2;
        BlockGrid block = new(new Box2(0, 0, 60, 60), cell, 0, 20);
        for (int r = 100; r < 200; r++)
        {
            for (int c = 100; c < 200; c++)
            {
                block.TopHeights.Set(r, c, 12);
            }
        }
        using FixtureGen.Output.Pictures.Heights heights = FixtureGen.Output.Pictures.Heights.Borrow(
            block,
            fromBelow: false
        );
        using ReliefShade shade = new(heights);
        using Borrowed<float> light = shade.Light();
        float At(double x, double y) => light.Span[((int)(y / cell) * block.Columns) + (int)(x / cell)];
        Assert.True(At(22, 38) < 0.5f * At(38, 22), "no shadow falls from the upper left");
        Assert.True(At(38, 22) > 0.6f * At(10, 10), "a lit floor is as the face, not darker for its depth");
        Assert.InRange(At(10, 10), 0.85f, 1.1f);
    }

    [Fact]
    public void A_block_cut_from_below_is_shown_from_both_sides()
    {
        FixtureDesign design = SampleDesign.Create(SampleJob.Create());
        BlockGrid both = SampleBlock.Carve(design, 0.8);
        BlockGrid top = SampleBlock.Carve(
            design with
            {
                Features = [.. design.Features.Where(f => f.Setup == Setup.Top)],
            },
            0.8
        );
        Assert.True(PngHeight(BlockPicture.Png(both, design)) > 1.7 * PngHeight(BlockPicture.Png(top, design)));
    }

    /// <summary>Bytes 20 to 23 of the header chunk, big-endian (PNG specification, W3C 2003, 11.2.2).</summary>
    private static int PngHeight(byte[] png) =>
        System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20));
}
