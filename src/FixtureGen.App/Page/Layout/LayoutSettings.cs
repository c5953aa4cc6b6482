using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.Layout;

/// <summary>The things a designer asks about beside the places: which key of the job each stands for, and how it is written there.</summary>
internal static class LayoutSettings
{
    private const double MPerFoot = 0.3048;

    /// <summary>A setting of the page and the job's key that it stands for.</summary>
    private abstract record Setting(string Key, string Name, string JobKey)
    {
        /// <summary>The field with the job's own value.</summary>
        public abstract SettingField Describe(Job job, ShopFiles shop);

        /// <summary>A finding where the field could not hold what is asked; the job's own value may always stay.</summary>
        public abstract Finding? Check(PageSettings asked, Job job, ShopFiles shop);

        /// <summary>The text with what is asked written in; as it is where that is the job's own value.</summary>
        public abstract Stage<string> Write(string text, string file, PageSettings asked, Job job);
    }

    /// <summary>One of the words that the shop has.</summary>
    private sealed record Choice(
        string Key,
        string Name,
        string JobKey,
        Func<Job, string> Own,
        Func<PageSettings, string> Asked,
        Func<Job, ShopFiles, IEnumerable<string>> Words
    ) : Setting(Key, Name, JobKey)
    {
        public override SettingField Describe(Job job, ShopFiles shop) =>
            new()
            {
                Key = Key,
                Name = Name,
                Unit = "",
                Choices = [.. Words(job, shop)],
                Choice = Own(job),
            };

        public override Finding? Check(PageSettings asked, Job job, ShopFiles shop)
        {
            string word = Asked(asked);
            return word == Own(job) || Words(job, shop).Contains(word, StringComparer.Ordinal)
                ? null
                : RequestFindings.NotAChoice($"settings.{Key}", word, Words(job, shop));
        }

        public override Stage<string> Write(string text, string file, PageSettings asked, Job job) =>
            Asked(asked) == Own(job) ? Stage.Answer(text) : JobEdit.Set(text, file, JobKey, Quoted(Asked(asked)));
    }

    /// <summary>A number in the field's unit, Factor of them to one of the inside unit; a bare one carries no unit in the job.</summary>
    private sealed record Figure(
        string Key,
        string Name,
        string JobKey,
        Func<Job, double> Inside,
        Func<PageSettings, double> Asked,
        Scale Scale,
        bool ZeroRemoves
    ) : Setting(Key, Name, JobKey)
    {
        public override SettingField Describe(Job job, ShopFiles shop) =>
            new()
            {
                Key = Key,
                Name = Name,
                Unit = Scale.Unit,
                Min = Scale.Min,
                Max = Scale.Max,
                Step = Scale.Step,
                Figure = Own(job),
            };

        public override Finding? Check(PageSettings asked, Job job, ShopFiles shop)
        {
            double value = Asked(asked);
            return value == Own(job) || (value >= Scale.Min && value <= Scale.Max)
                ? null
                : RequestFindings.Beyond($"settings.{Key}", value, Scale.Min, Scale.Max);
        }

        public override Stage<string> Write(string text, string file, PageSettings asked, Job job)
        {
            double value = Asked(asked);
            return value == Own(job) ? Stage.Answer(text)
                : value == 0 && ZeroRemoves ? JobEdit.Remove(text, file, JobKey)
                : JobEdit.Set(text, file, JobKey, Literal(value));
        }

        private string Literal(double value)
        {
            string number = ((decimal)value).ToString(CultureInfo.InvariantCulture);
            return Scale.Unit.Length == 0 ? number : Quoted($"{number} {Scale.Unit}");
        }

        public double Own(Job job) => Math.Round(Inside(job) / Scale.Factor, 4);
    }

    /// <summary>A unit of the page with its factor to the inside unit, and the field's range and step in it.</summary>
    private readonly record struct Scale(string Unit, double Factor, double Min, double Max, double Step);

    private static ImmutableArray<Setting> For(Job job)
    {
        bool inch = job.DisplayUnit == LengthUnit.Inch;
        return
        [
            new Choice(
                "magnet",
                "Magnet",
                "shop.magnet",
                j => j.Magnet.Name,
                a => a.Magnet,
                (_, s) => s.List("magnets")
            ),
            new Figure(
                "count",
                "Number of magnets",
                "magnets.count",
                j => Math.Max(j.MagnetCount, j.Magnets.Length),
                a => a.Count,
                new("", 1, 0, 24, 1),
                false
            ),
            new Figure(
                "alarm",
                "Vacuum alarm level",
                "vacuum.alarm",
                j => j.Vacuum.AlarmKPa,
                a => a.Alarm,
                inch ? new("inHg", Units.KPaPerInHg, 1.5, 29.5, 0.1) : new("kPa", 1, 5, 100, 0.5),
                false
            ),
            new Figure(
                "altitude",
                "Altitude",
                "vacuum.altitude",
                j => j.Vacuum.AltitudeM,
                a => a.Altitude,
                inch ? new("ft", MPerFoot, -1300, 16400, 50) : new("m", 1, -400, 5000, 10),
                false
            ),
            new Figure(
                "friction",
                "Friction of shell on block",
                "shell.friction",
                j => (j.ShellFriction ?? j.BlockMaterial.ShellFriction).Nominal,
                a => a.Friction,
                new("", 1, 0.01, 2, 0.01),
                false
            ),
            new Choice(
                "cutter",
                "Trim cutter",
                "shop.trim_tool",
                j => j.TrimTool.Name,
                a => a.Cutter,
                (j, _) => j.Tools.Where(t => t.Kind == ToolKind.EndMill).Select(t => t.Name)
            ),
            new Figure(
                "feed",
                "Trim feed (0: from the chip load)",
                "trim.feed",
                j => j.TrimFeedMmPerMin ?? 0,
                a => a.Feed,
                inch ? new("in/min", Units.MmPerInch, 0, 800, 0.5) : new("mm/min", 1, 0, 20000, 10),
                true
            ),
        ];
    }

    // The number of magnets is the layout's: the save writes it, and a question checks it.
    private static IEnumerable<Setting> Written(Job job) => For(job).Where(s => s.Key != "count");

    /// <summary>The settings as the page shows them, with the job's own values.</summary>
    public static SettingField[] Describe(Job job, ShopFiles shop) => [.. For(job).Select(s => s.Describe(job, shop))];

    /// <summary>The job's own values in the page's units.</summary>
    public static PageSettings Own(Job job)
    {
        Dictionary<string, Setting> all = For(job).ToDictionary(s => s.Key, StringComparer.Ordinal);
        double Number(string key) => ((Figure)all[key]).Own(job);
        return new()
        {
            Magnet = job.Magnet.Name,
            Count = (int)Number("count"),
            Alarm = Number("alarm"),
            Altitude = Number("altitude"),
            Friction = Number("friction"),
            Cutter = job.TrimTool.Name,
            Feed = Number("feed"),
        };
    }

    /// <summary>A finding for each setting that its field could not hold.</summary>
    public static IEnumerable<Finding> Check(PageSettings asked, Job job, ShopFiles shop) =>
        Written(job).Select(s => s.Check(asked, job, shop)).OfType<Finding>();

    /// <summary>The job's text with the settings that differ from it written in; the magnets' number is written by the save. The settings have been checked.</summary>
    public static Stage<string> Write(string text, string file, Job job, PageSettings asked)
    {
        Stage<string> edited = Stage.Answer(text);
        foreach (Setting s in Written(job))
        {
            if (!edited.Ok)
            {
                return edited;
            }
            edited = s.Write(edited.Value!, file, asked, job);
        }
        return edited;
    }

    private static string Quoted(string value) =>
        "\""
        + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";
}
