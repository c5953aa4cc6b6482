using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Output;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class PreviewTest
{
    private static readonly Job Job = SampleJob.Create();
    private static readonly FixtureDesign Design = SampleDesign.Create(Job);

    [Fact]
    public void Png_and_svg_are_the_same_bytes_on_every_run_in_every_culture()
    {
        byte[] png = Preview.Png(Design, Job);
        string svg = Preview.Svg(Design, Job);
        Looked.At("preview.png", png);
        Looked.At("preview.svg", Encoding.UTF8.GetBytes(svg));
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(png, Preview.Png(Design, Job));
            Assert.Equal(svg, Preview.Svg(Design, Job));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
