using System.Globalization;
using System.Text;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Svg;

/// <summary>
/// SVG documents damaged by a seeded hand, letter by letter and value by value: the reader and the part answer, in time and in
/// bounds. FIXTUREGEN_MUTANTS sets the number (2,000 without it), FIXTUREGEN_SEED the first seed.
/// </summary>
[Collection(Alone.Name)]
[Trait("Speed", "Slow")]
public sealed class SvgMutationTest
{
    private static readonly string[] Absurd =
    [
        "1e308",
        "-1e308",
        "1e-308",
        "NaN",
        "0",
        "-1",
        "99999999999999999999",
        "&amp;",
        "&e;",
        "#a",
        "none",
        "M",
        "a1 1 0 1 1",
        "z",
        "%",
        "in",
        "\"",
        "<g>",
        "</g>",
        "matrix(0 0 0 0 0 0)",
        "scale(1e200)",
        "rotate(1e9)",
    ];

    private static readonly string Original =
        "<?xml version=\"1.0\"?><!DOCTYPE svg [<!ENTITY e \"5\">]>"
        + SvgSketch.Text(
            "<style>.a, #k { stroke: red; stroke-dasharray: 1 2 }</style><defs><symbol id='s' viewBox='0 0 4 4'><circle cx='2' cy='2' r='2'/></symbol></defs>"
                + "<g id='OUTLINE' transform='translate(10 10) rotate(5)'><path d='M0 0 h100 a10 10 0 0 1 10 10 v50 c0 10 -20 0 -40 0 s-30 10 -40 0 q-10 -20 -30 0 T0 40 Z'/></g>"
                + "<g label='CUTOUT'><rect id='k' class='a' x='30' y='30' width='&e;' height='5' rx='1'/><use href='#s' x='50' y='40' width='8' height='8'/><ellipse cx='80' cy='40' rx='6' ry='3'/></g>"
                + "<polygon points='5,5 9,5 9,9'/><line x1='1' y1='1' x2='2mm' y2='3'/><text x='3' y='4' font-size='5'>WORDS</text>"
        );

    [Fact]
    public void Damaged_documents_are_answered()
    {
        int count = Setting("FIXTUREGEN_MUTANTS", 2000);
        int first = Setting("FIXTUREGEN_SEED", 1);
        int read = 0;
        TimeSpan slowest = TimeSpan.Zero;
        long most = 0;
        for (int seed = first; seed < first + count; seed++)
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"seed {seed}");
            byte[] mutant = Encoding.UTF8.GetBytes(Damage(seed));
            long before = GC.GetAllocatedBytesForCurrentThread();
            TimeSpan start = Environment.CpuUsage.TotalTime;
            Stage<DrawingContent> stage = Read(mutant, name);
            TimeSpan taken = Environment.CpuUsage.TotalTime - start;
            slowest = taken > slowest ? taken : slowest;
            most = Math.Max(most, GC.GetAllocatedBytesForCurrentThread() - before);
            Assert.True(taken < TimeSpan.FromSeconds(5), name);
            Assert.True(stage.Value is not null || stage.Findings.Any(f => f.Severity == Severity.Error), name);
            Assert.All(stage.Value?.Loops ?? [], l => Assert.True(double.IsFinite(l.AreaMm2), name));
            read += stage.Value is null ? 0 : 1;
        }
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{count} mutants from seed {first}: {read} read, {count - read} refused, slowest {slowest.TotalMilliseconds:0} ms, most allocated {most / 1048576.0:0} MB"
            )
        );
        Assert.InRange(most, 0, 1L << 30);
        Assert.InRange(read, count / 10, count - (count / 100));
    }

    private static Stage<DrawingContent> Read(byte[] mutant, string name)
    {
        try
        {
            Stage<DrawingContent> stage = DxfReader.Read(mutant, "mutant.svg", null, Tolerances.House);
            if (stage is { Ok: true, Value: { } drawing })
            {
                PartBuilder.Build(drawing with { Unit = drawing.Unit ?? LengthUnit.Millimetre });
            }
            return stage;
        }
        catch (Exception e)
        {
            throw new InvalidOperationException(name, e);
        }
    }

    private static string Damage(int seed)
    {
        var random = new Random(seed);
        string text = Original;
        for (int i = random.Next(1, 4); i > 0; i--)
        {
            int at = random.Next(Original.IndexOf("<svg", StringComparison.Ordinal), text.Length);
            int length = random.Next(1, 6);
            string rest = text[Math.Min(text.Length, at + length)..];
            text = random.Next(4) switch
            {
                0 => text[..at] + (char)random.Next(32, 127) + text[Math.Min(text.Length, at + 1)..],
                1 => text[..at] + rest,
                2 => text[..at] + Absurd[random.Next(Absurd.Length)] + rest,
                _ => Number(text, at, Absurd[random.Next(7)]),
            };
        }
        return text;
    }

    // the next number from there on is another
    private static string Number(string text, int at, string value)
    {
        int from = text.IndexOfAny("0123456789".ToCharArray(), at);
        if (from < 0)
        {
            return text;
        }
        int to = from;
        while (to < text.Length && char.IsAsciiDigit(text[to]))
        {
            to++;
        }
        return text[..from] + value + text[to..];
    }

    private static int Setting(string name, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out int value)
            ? value
            : otherwise;
}
