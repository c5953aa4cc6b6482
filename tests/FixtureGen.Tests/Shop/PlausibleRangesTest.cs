using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>Every input that a hold rests on: refused where it cannot be, warned of where nobody has it so, silent where it is usual.</summary>
public sealed class PlausibleRangesTest
{
    private const string JobText = """

        [shell]
        thickness = 1.5
        thickness_max = 1.65
        thickness_min = 1.35
        slack_max = 0.3
        friction = 0.2
        friction_from = 0.1
        friction_to = 0.3
        [trim]
        dull_factor = 1.5
        [limits]
        vacuum_factor = 2
        [rules]
        tab_length = 4
        """;

    public static TheoryData<int> Rows() => [.. Enumerable.Range(0, PlausibleTable.All.Count)];

    [Theory]
    [MemberData(nameof(Rows))]
    public void Ends_are_allowed_what_is_unusual_is_warned_of_and_what_cannot_be_is_refused(int row)
    {
        PlausibleKey key = PlausibleTable.All[row];
        PlausibleRange r = key.Range;
        Assert.True(r.Least <= r.From && r.From <= r.To && r.To <= r.Greatest, "the range's own ends are in order");
        Assert.NotEmpty(r.Source);

        Assert.Equal("", Told(key, r.From));
        Assert.Equal("", Told(key, r.To));
        Assert.Equal("", Told(key, (r.From + r.To) / 2));
        Assert.Equal(r.Least < r.From ? "shop-outside-practice" : "", Told(key, r.Least));
        Assert.Equal(r.Greatest > r.To ? "shop-outside-practice" : "", Told(key, r.Greatest));
        double step = 1e-3 * Math.Max(Math.Abs(r.Greatest), 1e-4);
        Assert.Equal("toml-out-of-range", Told(key, r.Least - step));
        Assert.Equal("toml-out-of-range", Told(key, r.Greatest + step));
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_refusal_says_the_value_what_is_possible_what_is_usual_and_its_source(int row)
    {
        PlausibleKey key = PlausibleTable.All[row];
        Finding f = Findings(key, (2 * key.Range.Greatest) + 1).First(f => Of(f, key));

        Assert.Equal((Severity.Error, "toml-out-of-range"), (f.Severity, f.Code));
        Assert.Contains("it must be from ", f.Message, StringComparison.Ordinal);
        Assert.Contains("; usual is from ", f.Remedy, StringComparison.Ordinal);
        Assert.EndsWith(": " + key.Range.Source + ".", f.Remedy, StringComparison.Ordinal);
    }

    /// <summary>A range that nobody listed is one that nobody tests.</summary>
    [Fact]
    public void Every_range_stands_in_the_table()
    {
        Type[] rooms =
        [
            typeof(MaterialRanges),
            typeof(GasketRanges),
            typeof(MagnetRanges),
            typeof(PlateRanges),
            typeof(ToolRanges),
            typeof(JobRanges),
        ];
        string[] listed = [.. PlausibleTable.All.Select(k => k.Range.Key).Distinct()];
        PropertyInfo[] fixedOnes =
        [
            .. rooms.SelectMany(r => r.GetProperties().Where(p => p.PropertyType == typeof(PlausibleRange))),
        ];
        Assert.True(fixedOnes.Length > 40);
        Assert.All(fixedOnes, p => Assert.Contains(((PlausibleRange)p.GetValue(null)!).Key, listed));
        int built = rooms.Sum(r =>
            r.GetMethods().Count(m => m is { IsSpecialName: false } && m.ReturnType == typeof(PlausibleRange))
        );
        Assert.Equal(21, built);
    }

    private static string Told(PlausibleKey key, double value) =>
        Findings(key, value)
            .Where(f => f.Code is "toml-out-of-range" or "shop-outside-practice" && Of(f, key))
            .Select(f => f.Code)
            .FirstOrDefault()
        ?? "";

    private static bool Of(Finding f, PlausibleKey key)
    {
        string path =
            key.Table.Length == 0 ? $"'{key.Range.Key}' is "
            : key.Table is "chip_load" or "drill_feed" or "tool" ? $"'{key.Table}[0].{key.Range.Key}' is "
            : $"'{key.Table}.{key.Range.Key}' is ";
        return f.Message.StartsWith(path, StringComparison.Ordinal)
            && !f.Message.Contains("its grade", StringComparison.Ordinal);
    }

    private static ImmutableArray<Finding> Findings(PlausibleKey key, double value)
    {
        string literal = key.Range.Kind is { } kind
            ? string.Create(CultureInfo.InvariantCulture, $"\"{value:0.##############} {kind.Inside}\"")
            : value.ToString("0.##############", CultureInfo.InvariantCulture);
        if (key.Kind == "job")
        {
            string job = TomlLines.Set(DemoShop.PlainJob(more: JobText), key.Table, key.Range.Key, literal);
            return JobReader.Read(job, "outlines/x.toml", DemoShop.Files).Findings;
        }
        (string path, string text) = DemoShop.Files.Find(key.Kind, key.File)!.Value;
        string set = TomlLines.Set(text, key.Table, key.Range.Key, literal);
        return key.Kind switch
        {
            "materials" => MaterialReader.Read(set, path, key.File).Findings,
            "gaskets" => GasketReader.Read(set, path, key.File).Findings,
            "magnets" => MagnetReader.Read(set, path, key.File).Findings,
            "plates" => PlateReader.Read(set, path, key.File).Findings,
            "tools" => ToolReader.Read(set, path, key.File).Findings,
            "fasteners" => FastenerReader.ReadScrew(set, path, key.File).Findings,
            _ => BlankReader.Read(set, path, key.File).Findings,
        };
    }
}
