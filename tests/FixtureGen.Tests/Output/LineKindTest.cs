using System.Reflection;
using FixtureGen.Output.Scenes;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class LineKindTest
{
    private static readonly LineKind[] Kinds =
    [
        .. typeof(LineKind)
            .GetProperties(BindingFlags.Public | BindingFlags.Static)
            .Where(p => p.PropertyType == typeof(LineKind))
            .Select(p => (LineKind)p.GetValue(null)!),
    ];

    /// <summary>What a grey print keeps of a kind: dashes, hatch, lightness of fill and line, line width.</summary>
    [Fact]
    public void Any_two_kinds_differ_in_grey_by_line_kind_hatch_or_lightness()
    {
        Assert.True(Kinds.Length > 15);
        for (int i = 0; i < Kinds.Length; i++)
        {
            for (int k = 0; k < i; k++)
            {
                Assert.True(Apart(Kinds[i], Kinds[k]), $"{Kinds[i].Name} and {Kinds[k].Name} look alike in grey");
            }
        }
    }

    private static bool Apart(LineKind a, LineKind b)
    {
        bool fill =
            a.Fill is null != b.Fill is null
            || (a.Fill is { } f && Math.Abs(f.Lightness - b.Fill!.Value.Lightness) >= 15);
        bool hatch =
            a.Hatch is null != b.Hatch is null || (a.Hatch is not null && Math.Abs(a.HatchDeg - b.HatchDeg) > 30);
        bool pen = a.Pen is null != b.Pen is null;
        if (a.Pen is { } p && b.Pen is { } q)
        {
            pen =
                !p.Dash.SequenceEqual(q.Dash)
                || p.Width >= 1.5 * q.Width
                || q.Width >= 1.5 * p.Width
                || Math.Abs(p.Colour.Lightness - q.Colour.Lightness) >= 40;
        }
        return fill || hatch || pen || a.Cross != b.Cross;
    }
}
