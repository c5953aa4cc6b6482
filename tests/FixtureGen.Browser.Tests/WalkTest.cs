using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Serving;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>
/// Random places of magnets, and now and then a fixed port: what the page is answered is what check says of the job saved
/// so, and check refuses where the page marks a clearance. FIXTUREGEN_WALK sets how many places; 200 in the long run.
/// </summary>
public sealed class WalkTest
{
    private static readonly string[] Jobs = ["prism-pouch", "pruner-sheath", "trowel-sheath", "label-clip"];

    /// <summary>Cord, blank, cutter and cut are left open: a saved layout keeps those that it was tried with.</summary>
    private const string Open = "pruner-sheath";
    private static readonly string[] Factors = ["vacuumOnly", "magnetsStopping", "magnetsOnly", "both"];

    [Fact]
    public void Page_and_check_never_disagree()
    {
        int places = int.Parse(
            Environment.GetEnvironmentVariable("FIXTUREGEN_WALK") ?? "20",
            CultureInfo.InvariantCulture
        );
        Random random = new(20260901);
        int compared = 0;
        for (int i = 0; i < Jobs.Length; i++)
        {
            int share = (places / Jobs.Length) + (i < places % Jobs.Length ? 1 : 0);
            compared += Walk(Jobs[i], share, random);
        }
        Assert.True(
            compared * 4 >= places,
            FormattableString.Invariant($"of {places} places only {compared} were legal")
        );
    }

    private static int Walk(string name, int places, Random random)
    {
        string folder = LayoutPage.Library(name, name == Open);
        JobSource source = JobSource.Read(Path.Combine(folder, "outlines", name + ".toml")).Value!;
        LayoutTrial trial = LayoutTrial.Open(source, source.Library.Shop(null)).Value!;
        FedZone fed = trial.State("", "").Fed[0];
        LayoutAsk ask = trial.Own();
        ask = ask with { Placement = trial.PoseFor(ask) };
        int compared = 0;
        LayoutAsk legal = ask;
        for (int i = 0; i < places; i++)
        {
            ask = Step(legal, fed, random);
            bool kept = Compare(trial, source, ask);
            legal = kept ? ask : legal;
            compared += kept ? 1 : 0;
        }
        Directory.Delete(folder, recursive: true);
        return compared;
    }

    private static LayoutAsk Step(LayoutAsk ask, FedZone fed, Random random)
    {
        int[] free = [.. Enumerable.Range(0, ask.Magnets.Length).Where(i => !ask.Magnets[i].FromDrawing)];
        int which = free[random.Next(free.Length)];
        ImmutableArray<MagnetPlace> locked = [.. ask.Magnets.Select(m => m with { Locked = true })];
        Point2 by = new((random.NextDouble() - 0.5) * 8, (random.NextDouble() - 0.5) * 8);
        ImmutableArray<MagnetPlace> moved = locked.SetItem(which, locked[which] with { At = locked[which].At + by });
        Point2 port = new(fed.X + random.NextDouble() - 0.5, fed.Y + random.NextDouble() - 0.5);
        LayoutAsk next = ask with { Magnets = moved, Ports = random.Next(4) == 0 ? [port] : [] };
        return random.Next(5) == 0 ? Carried(next, random) : next;
    }

    /// <summary>The part shifted and turned a little, its magnets and ports with it, as the page's handles do.</summary>
    private static LayoutAsk Carried(LayoutAsk ask, Random random)
    {
        Pose from = ask.Placement ?? new Pose(0, 0, 0);
        Pose to = new(
            Math.Round(from.X + random.NextDouble() - 0.5, 4),
            Math.Round(from.Y + random.NextDouble() - 0.5, 4),
            Math.Round(from.AngleDeg + random.NextDouble() - 0.5, 4)
        );
        Pose back = Transform.Inverse(from);
        Point2 Carry(Point2 p) => Transform.Apply(to, Transform.Apply(back, p));
        return ask with
        {
            Placement = to,
            Magnets = [.. ask.Magnets.Select(m => m with { At = Carry(m.At) })],
            Ports = [.. ask.Ports.Select(Carry)],
        };
    }

    private static bool Compare(LayoutTrial trial, JobSource source, LayoutAsk ask)
    {
        PageAnswer tried = trial.Try(ask);
        JsonNode answer = JsonNode.Parse(tried.Body.Span)!;
        Stage<string> text = trial.Text(ask, source.JobText);
        Assert.True(text.Ok);
        Outcome check = Delivery.Check(source.Request(null, static _ => { }) with { JobText = text.Value! });
        string where = string.Join(' ', ask.Magnets.Select(m => m.At)) + string.Join(' ', ask.Ports);
        if (tried.Status != 200 || answer["violations"]!.AsArray().Count > 0)
        {
            Assert.False(check.Report.Ok, $"the page marks a clearance and check does not: {where}");
            return false;
        }
        bool errors = answer["findings"]!.AsArray().Any(f => (string?)f!["severity"] == "error");
        Assert.Equal(errors, !check.Report.Ok);
        if (errors)
        {
            return false;
        }
        HoldingResult h = check.Holding!;
        double[] expected = [h.VacuumOnly.Factor, h.MagnetsStopping.Factor, h.MagnetsOnly.Factor, h.Both.Factor];
        foreach ((string key, double factor) in Factors.Zip(expected))
        {
            double shown = (double)answer["factors"]![key]!["factor"]!;
            Assert.True(
                Math.Abs(shown - factor) <= 1e-4,
                FormattableString.Invariant($"{source.Name} {key}: page {shown}, check {factor}; {where}")
            );
        }
        return true;
    }
}
