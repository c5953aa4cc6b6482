using System.Text.RegularExpressions;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>
/// Every key of every shop file and job does something: set to another plausible value it changes a program, the report, a
/// paper, the drawing or a finding, or is refused for what it means. Rows of an array of tables and files of one folder share
/// their keys: one row of one file is enough.
/// </summary>
[Trait("Speed", "Slow")]
public sealed partial class EveryKeyTest
{
    /// <summary>
    /// Keys that no demo part calls for: a corner that its cutter does not reach (<see cref="Toolpaths.TrimPlannerTest"/>), a hole
    /// deeper than three diameters, and a dwell or an optional stop, which only programs edited by hand have (the judge's
    /// ReadingTest and PlanesAndCyclesTest read the words), a tool near the plate's face, an edge stop or with its shank (its
    /// PlateTest and ObstacleTest), a zone that only a groove of the plate reaches (PlateTest), a gap to join and curves made
    /// invisible (<see cref="Dxf.RolesTest"/>), a cutout under the trim cutter (<see cref="Design.SmallHolesTest"/>), a form that rises
    /// from a flange (<see cref="Design.FormStrengthTest"/>, <see cref="Design.SealedFormsTest"/>), a screw strained by its torque
    /// (<see cref="ShopFitTest"/>), and a mill that goes straight down, which only programs edited by hand do (the judge's FeedTest).
    /// </summary>
    private static readonly string[] Elsewhere =
    [
        "rules.corner_left",
        "stress_area",
        "tool.centre_cutting",
        "drawing.small_holes",
        "drawing.inner_corners",
        "form.top",
        "form.plug",
        "peck_high_speed",
        "dwell",
        "dwell_word",
        "optional_stop",
        "skin",
        "stop.diameter",
        "groove.width",
        "tool.shank_diameter",
        "drawing.join",
        "drawing.invisible",
    ];

    /// <summary>Rows of one array that are tried in one file, the trim cutter's first.</summary>
    private const int MostRows = 4;

    /// <summary>A key of many rows that does nothing would take minutes to say so.</summary>
    private const int MostTries = 60;

    /// <summary>Jobs by what they cost; the first is tried first, the others where it has no use for a key.</summary>
    private static readonly string[] Jobs = ["label-clip", "tape-cradle", "meter-cradle"];

    private static readonly string[] Folders =
    [
        "plates",
        "blanks",
        "tools",
        "materials",
        "magnets",
        "gaskets",
        "fasteners",
        "controls",
    ];

    private static readonly ShopFiles Files = DemoShop.Files.Remembered();

    private static readonly Dictionary<(string, ShopFiles), KeyBench> Benches = [];

    /// <summary>
    /// The job with its magnets' places stated: that they are chosen is asked elsewhere (MagnetPlacementTest), and a
    /// choice for every value of every key takes most of the time.
    /// </summary>
    private static string Text(string job)
    {
        string text = File.ReadAllText(DemoShop.StatedJob(job));
        return text.Contains("[[magnet]]", StringComparison.Ordinal) ? text : text + Magnets(DemoPrograms.Of(job));
    }

    private static string Magnets(DemoProgram made)
    {
        double unit = made.Job.DisplayUnit == FixtureGen.Model.LengthUnit.Inch ? FixtureGen.Model.Units.MmPerInch : 1;
        return string.Concat(
            made.Design.Magnets.Select(m =>
                    WrittenPlace.InPart(m.At, made.Design.Placement.Pose, made.Job) * (1 / unit)
                )
                .Select(at => FormattableString.Invariant($"\n[[magnet]]\nat = [{at.X:0.0###}, {at.Y:0.0###}]\n"))
        );
    }

    public static TheoryData<string> Kinds() => [.. Folders];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_key_of_the_shop_files_shows(string kind)
    {
        Place[] places = [.. Jobs.SelectMany((job, i) => InShop(kind, job, i))];
        Assert.True(places.Length > 10, $"{places.Length} places of {kind}");
        AssertAlive(places);
    }

    [Fact]
    public void Every_key_of_the_jobs_shows() =>
        AssertAlive([
            .. Jobs.Concat(DemoPrograms.Names().Except(Jobs)).SelectMany((job, i) => InJob(job, i, Text(job), [])),
        ]);

    /// <summary>What 'new' writes as comments, table by table, into a job that leaves it out.</summary>
    [Fact]
    public void Every_key_that_a_job_may_leave_out_shows()
    {
        HashSet<string> stated =
        [
            .. DemoPrograms.Names().SelectMany(n => KeyText.Keys(KeyText.Parse(Text(n), n))).Select(k => k.Path),
        ];
        Place[] places =
        [
            .. Jobs.SelectMany(
                (job, i) =>
                    Completed(Text(job)).Concat(SpareKeys.InJob(Text(job))).SelectMany(w => InJob(job, i, w, stated))
            ),
        ];
        Assert.True(places.Length > 100, $"{places.Length} places");
        AssertAlive(places);
    }

    /// <summary>What the readers ask for by name is a key that one of the tests above tries.</summary>
    [Fact]
    public void Every_key_that_a_reader_asks_for_is_tried()
    {
        HashSet<string> tried = new(StringComparer.Ordinal);
        IEnumerable<string> texts = Folders
            .SelectMany(k =>
                Files.List(k).Select(n => Files.Find(k, n)!.Value.Text).Select(t => SpareKeys.InShopFile(k, t) ?? t)
            )
            .Concat(DemoPrograms.Names().Select(Text))
            .Concat(Completed(Text(Jobs[0])))
            .Concat(Jobs.SelectMany(j => SpareKeys.InJob(Text(j))));
        foreach (KeyPlace key in texts.SelectMany(t => KeyText.Keys(KeyText.Parse(t, "text"))))
        {
            tried.UnionWith(key.Path.Split('.'));
        }
        string shop = Path.Combine(DemoShop.Root, "src", "FixtureGen", "Shop");
        HashSet<string> asked =
        [
            .. Directory
                .EnumerateFiles(shop, "*.cs", SearchOption.AllDirectories)
                .SelectMany(f => Asked().Matches(File.ReadAllText(f)))
                .Select(m => m.Groups[1].Value),
        ];
        string[] gone = ["below_is_error", "holder_length"];
        Assert.True(asked.Count > 150, $"{asked.Count} keys");
        Assert.Equal([], asked.Except(tried).Except(gone).Order(StringComparer.Ordinal));
    }

    /// <summary>Places of one key share a path; the first job's are tried first, three values of each, then three more.</summary>
    private static void AssertAlive(IReadOnlyCollection<Place> places)
    {
        List<string> dead = [];
        foreach (IGrouping<string, Place> key in places.GroupBy(p => p.Path).Where(k => !Elsewhere.Contains(k.Key)))
        {
            Func<KeyEffect>[] tries =
            [
                .. key.SelectMany(p => p.Tries.Select((t, i) => (Round: i / 3, p.Job, Try: t)))
                    .OrderBy(t => t.Job > 0)
                    .ThenBy(t => t.Round)
                    .ThenBy(t => t.Job)
                    .Select(t => t.Try),
            ];
            int same = 0;
            bool shown = false;
            foreach (Func<KeyEffect> one in tries.Take(MostTries).TakeWhile(_ => !shown))
            {
                KeyEffect effect = one();
                shown = effect == KeyEffect.Shown;
                same += effect == KeyEffect.None ? 1 : 0;
            }
            if (!shown)
            {
                dead.Add(FormattableString.Invariant($"{key.Key}: {same} values change nothing"));
            }
        }
        Assert.True(dead.Count == 0, "These keys do nothing:\n" + string.Join('\n', dead));
    }

    /// <summary>The files of a folder, those that the job uses first, each in a job that names it.</summary>
    private static IEnumerable<Place> InShop(string kind, string job, int order)
    {
        string jobText = Text(job);
        foreach (
            string file in Files
                .List(kind)
                .OrderByDescending(n =>
                    jobText.Contains($"\"{n}\"", StringComparison.Ordinal) || n == BlockMaterial(jobText)
                )
                .ThenBy(n => n, StringComparer.Ordinal)
        )
        {
            string text = Files.Find(kind, file)!.Value.Text;
            string whole = SpareKeys.InShopFile(kind, text) ?? text;
            TomlTable tree = KeyText.Parse(whole, file);
            string named = Named(jobText, kind, file);
            ShopFiles shop = whole == text ? Files : With(kind, file, whole);
            if (tree.Find("tool") is { Value: TomlList rows } tools)
            {
                tree.Entries[tree.Entries.IndexOf(tools)] = tools with { Value = TrimFirst(rows, jobText) };
            }
            foreach (KeyPlace key in KeyText.Keys(tree).GroupBy(k => k.Path).SelectMany(g => g.Take(MostRows)))
            {
                yield return new Place(
                    key.Path,
                    order,
                    [
                        .. KeyTries
                            .For(kind, key)
                            .Select(literal =>
                                (Func<KeyEffect>)(
                                    () =>
                                        Bench(job, named, shop)
                                            .Try(
                                                key.Key,
                                                named,
                                                With(kind, file, KeyText.Write(tree, key.Value, literal)),
                                                kind == "controls" && key.Path != "units"
                                            )
                                )
                            ),
                    ]
                );
            }
        }
    }

    private static TomlList TrimFirst(TomlList rows, string job) =>
        rows with
        {
            Items =
            [
                .. rows.Items.OrderByDescending(r =>
                    job.Contains(
                        $"trim_tool = {KeyText.Literal(((TomlTable)r).Find("name")!.Value)}",
                        StringComparison.Ordinal
                    )
                ),
            ],
        };

    private static ShopFiles With(string kind, string file, string text) =>
        Files with
        {
            Find = (k, n) => k == kind && n == file ? ($"templates/{kind}/{file}.toml", text) : Files.Find(k, n),
        };

    private static IEnumerable<Place> InJob(string job, int order, string text, HashSet<string> but)
    {
        TomlTable tree = KeyText.Parse(text, job);
        string whole = KeyText.Write(tree, null, "");
        return KeyText
            .Keys(tree)
            .Where(k => !but.Contains(k.Path))
            .Select(key => new Place(
                key.Path,
                order,
                [
                    .. KeyTries
                        .For("jobs", key)
                        .Select(literal =>
                            (Func<KeyEffect>)(
                                () =>
                                    Bench(job, whole, Files)
                                        .Try(key.Key, KeyText.Write(tree, key.Value, literal), Files, control: false)
                            )
                        ),
                ]
            ));
    }

    private static KeyBench Bench(string job, string text, ShopFiles shop)
    {
        if (!Benches.TryGetValue((text, shop), out KeyBench? bench))
        {
            bench = new KeyBench(job, text, shop);
            Benches[(text, shop)] = bench;
        }
        return bench;
    }

    /// <summary>The material that the job's blank names.</summary>
    private static string BlockMaterial(string job)
    {
        string blank = (
            (TomlString)((TomlTable)KeyText.Parse(job, "job").Find("shop")!.Value).Find("blank")!.Value
        ).Text;
        TomlTable tree = KeyText.Parse(Files.Find("blanks", blank)!.Value.Text, blank);
        return ((TomlString)tree.Find("material")!.Value).Text;
    }

    /// <summary>The job with that file in place of its own of that kind.</summary>
    private static string Named(string job, string kind, string file)
    {
        if (kind == "materials" && file == BlockMaterial(job))
        {
            return job;
        }
        string key = kind switch
        {
            "plates" => "plate",
            "blanks" => "blank",
            "tools" => "tools",
            "materials" => "shell",
            "magnets" => "magnet",
            "gaskets" => "gasket",
            "fasteners" => file.StartsWith("pin", StringComparison.Ordinal) ? "pin" : "bolt",
            _ => "control",
        };
        return TomlLines.Set(job, "shop", key, $"\"{file}\"");
    }

    /// <summary>The job with one table more, all of its keys as 'new' writes them; once for every table.</summary>
    private static IEnumerable<string> Completed(string job)
    {
        TomlTable stated = KeyText.Parse(job, "job");
        HashSet<string> there = [.. KeyText.Keys(stated).Select(k => k.Path)];
        DrawingFacts facts = new(
            "job",
            FixtureGen.Model.LengthUnit.Millimetre,
            100,
            100,
            HasForm: false,
            HasMagnets: false
        );
        string table = "";
        string more = job;
        foreach (
            string line in JobTemplate.NewJob(facts, Files).Split('\n').Select(l => l.TrimStart('#', ' ')).Append("[]")
        )
        {
            if (Head().Match(line) is { Success: true } head)
            {
                if (more != job)
                {
                    yield return more;
                }
                (table, more) = (head.Groups[2].Value, job);
                if (table == "hold")
                {
                    // A reason is wanted only where a hold is low.
                    more = TomlLines.Set(more, "limits", "vacuum_factor", "50");
                }
                if (head.Groups[1].Value == "[[" && !stated.Entries.Exists(e => e.Key == table))
                {
                    more += $"\n[[{table}]]";
                }
            }
            else if (Pair().Match(line) is { Success: true } pair)
            {
                string key = pair.Groups[1].Value;
                if (!there.Contains(table.Length == 0 ? key : table + "." + key))
                {
                    more = TomlLines.Set(more, table, key, pair.Groups[2].Value.Trim());
                }
            }
        }
    }

    /// <summary>The reading calls of a table and of a range: t.Length("key", Word(t, "key", Number("key".</summary>
    [GeneratedRegex(
        @"(?:\b(?:t|top|row|seal|machine|rulesTable)\??\.(?:Text|Length|Number|Whole|Flag|Choice|Point|Measure|Inner)\w*|\b(?:Word|Line|Lines|Vacuum|Span|Many)\(t,|\b(?:Length|Number|Role|Many|Possible|Of))(?:<\w+>)?\(?\s*""([a-z][a-z0-9_]*)"""
    )]
    private static partial Regex Asked();

    private sealed record Place(string Path, int Job, IReadOnlyList<Func<KeyEffect>> Tries);

    [GeneratedRegex(@"^(\[+)([a-z_.]*)\]+")]
    private static partial Regex Head();

    [GeneratedRegex(@"^([a-z0-9_]+) = ([^#]+)")]
    private static partial Regex Pair();
}
