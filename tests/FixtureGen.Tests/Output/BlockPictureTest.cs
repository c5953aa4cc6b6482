using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Verify;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class BlockPictureTest
{
    [Fact]
    public void The_same_block_gives_the_same_bytes()
    {
        Job job = SampleJob.Create();
        FixtureDesign design = SampleDesign.Create(job);
        BlockGrid block = SampleBlock.Carve(design, 0.1);
        byte[] png = BlockPicture.Png(block, design);
        Looked.At("block.png", png);
        Assert.Equal(png, BlockPicture.Png(block, design));
    }
}
