using System.Globalization;
using System.Text;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>
/// Drawings damaged by a seeded hand, byte by byte and group by group: whatever comes in, the reader answers, in time and
/// in bounds: processor time, and alone, so that what else the machine does cannot count. FIXTUREGEN_MUTANTS sets the number (5,000 without it), FIXTUREGEN_SEED the first seed.
/// </summary>
[Collection(Alone.Name)]
[Trait("Speed", "Slow")]
public sealed class MutationTest
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    [Fact]
    public void Damaged_drawings_are_answered()
    {
        Drawings.Need();
        int count = Setting("FIXTUREGEN_MUTANTS", 5000);
        int first = Setting("FIXTUREGEN_SEED", 1);
        byte[][] originals = [.. Drawings.Files.Select(File.ReadAllBytes)];
        int read = 0;
        TimeSpan slowest = TimeSpan.Zero;
        long most = 0;
        for (int seed = first; seed < first + count; seed++)
        {
            byte[] mutant = Mutator.Damage(originals, seed);
            long before = GC.GetAllocatedBytesForCurrentThread();
            TimeSpan start = Environment.CpuUsage.TotalTime;
            Stage<DrawingContent> stage = Read(mutant, seed);
            TimeSpan taken = Environment.CpuUsage.TotalTime - start;
            slowest = taken > slowest ? taken : slowest;
            most = Math.Max(most, GC.GetAllocatedBytesForCurrentThread() - before);
            Assert.True(taken < Patience, Name(seed));
            Assert.True(stage.Value is not null || stage.Findings.Any(f => f.Severity == Severity.Error), Name(seed));
            Assert.All(stage.Value?.Loops ?? [], l => Assert.True(double.IsFinite(l.AreaMm2), Name(seed)));
            read += stage.Value is null ? 0 : 1;
        }
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{count} mutants from seed {first}: {read} read, {count - read} refused, slowest {slowest.TotalMilliseconds:0} ms, most allocated {most / 1048576.0:0} MB"
            )
        );
        Assert.InRange(most, 0, 1L << 30);
        // the mutator must neither spare nor wreck them all
        Assert.InRange(read, count / 10, count - (count / 100));
    }

    private static Stage<DrawingContent> Read(byte[] mutant, int seed)
    {
        try
        {
            Stage<DrawingContent> stage = DxfReader.Read(mutant, "mutant.dxf", null, Tolerances.House);
            if (stage is { Ok: true, Value: { } drawing })
            {
                PartBuilder.Build(drawing with { Unit = drawing.Unit ?? LengthUnit.Millimetre });
            }
            return stage;
        }
        catch (Exception e)
        {
            throw new InvalidOperationException(Name(seed), e);
        }
    }

    private static string Name(int seed) => string.Create(CultureInfo.InvariantCulture, $"seed {seed}");

    private static int Setting(string name, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out int value)
            ? value
            : otherwise;
}

/// <summary>Damages one drawing: bytes flipped, cut, doubled or set to extremes; groups dropped, doubled, swapped, moved between files, values made absurd.</summary>
internal static class Mutator
{
    private static readonly string[] Absurd =
    [
        "0",
        "-1",
        "1e308",
        "-1e308",
        "1e-308",
        "NaN",
        "Infinity",
        "2147483647",
        "-2147483648",
        "99999999999999999999",
        "",
        " ",
        "%%c",
        "\\U+D800",
        "\u00ff\u00fe",
        "*Model_Space",
        "LINE",
        "ENDSEC",
        "SECTION",
        "360",
        "0.0000001",
        "1,5",
    ];

    private static readonly string[] Codes =
    [
        "0",
        "2",
        "10",
        "11",
        "20",
        "40",
        "41",
        "42",
        "50",
        "66",
        "67",
        "70",
        "71",
        "72",
        "73",
        "90",
        "100",
        "101",
        "102",
        "210",
        "230",
        "999",
        "1001",
    ];

    public static byte[] Damage(byte[][] originals, int seed)
    {
        var random = new Random(seed);
        byte[] bytes = [.. originals[random.Next(originals.Length)]];
        bool text = !bytes.AsSpan().StartsWith("AutoCAD Binary"u8);
        int times = 1 + random.Next(6);
        if (text && random.Next(3) > 0)
        {
            return Groups(bytes, originals, random, times);
        }
        for (int i = 0; i < times && bytes.Length > 1; i++)
        {
            bytes = Bytes(bytes, random);
        }
        return bytes;
    }

    private static byte[] Bytes(byte[] bytes, Random random)
    {
        int at = random.Next(bytes.Length);
        int length = Math.Min(bytes.Length - at, 1 + random.Next(64));
        switch (random.Next(6))
        {
            case 0:
                bytes[at] ^= (byte)(1 << random.Next(8));
                return bytes;
            case 1:
                bytes[at] = (byte)random.Next(256);
                return bytes;
            case 2:
                return bytes[..at];
            case 3:
                return [.. bytes[..at], .. bytes[(at + length)..]];
            case 4:
                return [.. bytes[..at], .. bytes[at..(at + length)], .. bytes[at..]];
            default:
                bytes.AsSpan(at, length).Fill(random.Next(2) == 0 ? (byte)0 : (byte)255);
                return bytes;
        }
    }

    private static byte[] Groups(byte[] bytes, byte[][] originals, Random random, int times)
    {
        List<string> lines = Lines(bytes);
        for (int i = 0; i < times && lines.Count > 4; i++)
        {
            int at = 2 * random.Next(lines.Count / 2);
            int count = Math.Min(lines.Count - at, 2 * (1 + random.Next(12)));
            switch (random.Next(7))
            {
                case 0:
                    lines.RemoveRange(at, count);
                    break;
                case 1:
                    lines.InsertRange(at, lines.GetRange(at, count));
                    break;
                case 2:
                    lines[at + 1] = Absurd[random.Next(Absurd.Length)];
                    break;
                case 3:
                    lines[at] = Codes[random.Next(Codes.Length)];
                    break;
                case 4:
                    lines.InsertRange(at, [Codes[random.Next(Codes.Length)], Absurd[random.Next(Absurd.Length)]]);
                    break;
                case 5:
                    List<string> other = Lines(originals[random.Next(originals.Length)]);
                    int from = 2 * random.Next((other.Count + 1) / 2);
                    lines.InsertRange(at, other.GetRange(from, Math.Min(other.Count - from, 80)));
                    break;
                default:
                    int to = 2 * random.Next(lines.Count / 2);
                    (lines[at], lines[to]) = (lines[to], lines[at]);
                    (lines[at + 1], lines[to + 1]) = (lines[to + 1], lines[at + 1]);
                    break;
            }
        }
        return Encoding.Latin1.GetBytes(string.Join('\n', lines));
    }

    private static List<string> Lines(byte[] bytes)
    {
        List<string> lines = [.. Encoding.Latin1.GetString(bytes).ReplaceLineEndings("\n").Split('\n')];
        if (lines.Count % 2 == 1)
        {
            lines.RemoveAt(lines.Count - 1);
        }
        return lines;
    }
}
