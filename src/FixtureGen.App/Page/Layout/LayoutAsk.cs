using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Layout;

/// <summary>A checked question: magnets and fixed ports in the plate frame, mm, and the settings. Have is the keys of the curves that the page holds.</summary>
internal sealed record LayoutAsk(
    ImmutableArray<MagnetPlace> Magnets,
    ImmutableArray<Point2> Ports,
    PageSettings Settings,
    ImmutableHashSet<string> Have
)
{
    private const int MostPorts = 20;

    private const int MostMagnets = 60;

    private const int MostHeld = 2000;

    private const double ReachMm = 5000;

    /// <summary>Where the part is asked to lie; null where the job has it.</summary>
    public Pose? Placement { get; init; }

    /// <summary>The question, or a finding for each member that is out of range.</summary>
    public static Stage<LayoutAsk> Check(LayoutQuestion question)
    {
        string[] have = question.Have ?? [];
        Finding[] wrong =
        [
            .. TooMany("magnets", question.Magnets.Length, MostMagnets),
            .. TooMany("ports", question.Ports.Length, MostPorts),
            .. TooMany("have", have.Length, MostHeld),
            .. question.Magnets.SelectMany((m, i) => Far(Item("magnets", i), m.X, m.Y)),
            .. question.Ports.SelectMany((p, i) => Far(Item("ports", i), p.X, p.Y)),
            .. question.Placement is { } at ? Far("placement", at.X, at.Y).Concat(Turned(at.AngleDeg)) : [],
            .. have.SelectMany((h, i) => h is null ? [RequestFindings.Empty(Item("have", i))] : Array.Empty<Finding>()),
        ];
        int count = question.Settings.Count;
        if (count is < 0 or > MostMagnets)
        {
            wrong = [.. wrong, RequestFindings.Beyond("settings.count", count, 0, MostMagnets)];
        }
        return wrong.Length > 0
            ? Stage.Failed<LayoutAsk>(wrong)
            : Stage.Answer(
                new LayoutAsk(
                    [.. question.Magnets.Select(m => new MagnetPlace(new Point2(m.X, m.Y), m.Locked, m.Drawn))],
                    [.. question.Ports.Select(p => new Point2(p.X, p.Y))],
                    question.Settings,
                    [.. have]
                )
                {
                    Placement = question.Placement is { } p ? new Pose(p.X, p.Y, p.AngleDeg) : null,
                }
            );
    }

    private static IEnumerable<Finding> Turned(double deg) =>
        Math.Abs(deg) <= 360 ? [] : [RequestFindings.Beyond("placement.angleDeg", deg, -360, 360)];

    /// <summary>A finding unless the point is in reach of a plate.</summary>
    public static IEnumerable<Finding> Far(string member, double x, double y) =>
        Math.Abs(x) <= ReachMm && Math.Abs(y) <= ReachMm ? [] : [RequestFindings.FarAway(member, x, y, ReachMm)];

    private static IEnumerable<Finding> TooMany(string member, int count, int most) =>
        count > most ? [RequestFindings.TooMany(member, count, most)] : [];

    private static string Item(string list, int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{list}[{index}]");
}
