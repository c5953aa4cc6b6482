using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.App.Page.Layout;

/// <summary>A layout drawn up: the job with its places, the design without magnets, and with them where they can be cut.</summary>
internal sealed record Laid(Job Job, FixtureDesign Begun, FixtureDesign Design);

/// <summary>
/// Draws up one layout after another. Between two it keeps only what the settings decide: the placed job, its ground and
/// what the kernel answered; a change of a setting drops them.
/// </summary>
internal sealed class LayoutDrafter(Request request, Placed placed)
{
    private readonly Job _original = placed.Job;
    private readonly KernelMemory _memory = new();
    private (PageSettings Settings, Pose? Placement)? _asked;
    private Stage<Ground>? _ground;

    /// <summary>The job as it was placed last.</summary>
    public Placed Current { get; private set; } = placed;

    /// <summary>The holding of the last layout, to take from what does not change; null where the settings have changed since.</summary>
    public HoldingContext? Like { get; set; }

    /// <summary>The design with the magnets just there. Where they cannot be cut it is the design without their pockets, and the findings say so.</summary>
    public Stage<Laid> Lay(LayoutAsk ask)
    {
        Stage<Placed> placed = PlacedFor(ask);
        if (placed.Value is not { } p)
        {
            return Stage.Failed<Laid>(placed.Findings);
        }
        ImmutableArray<MagnetPlace> magnets = [.. ask.Magnets.Select(m => Rounded(m, p))];
        Pose back = Transform.Inverse(p.Placement.Pose);
        Job job = p.Job with
        {
            Magnets =
            [
                .. magnets
                    .Where(m => !m.FromDrawing)
                    .Select(m => new MagnetWish(Transform.Apply(back, m.At), m.Locked)),
            ],
            Ports = PortsOf(ask, p),
            MagnetCount = magnets.Length,
        };
        _memory.NextRound();
        _ground ??= Ground.Lay(p.Part, p.Placement, job, Tolerances.House);
        if (_ground.Value is not { } ground)
        {
            return Stage.Failed<Laid>(_ground.Findings);
        }
        Stage<FixtureDesign> begun = Designer.Begin(ground, job, Tolerances.House, _memory);
        if (begun.Value is not { } b)
        {
            return Stage.Failed<Laid>([.. _ground.Findings, .. begun.Findings]);
        }
        Stage<FixtureDesign> finished = Designer.Finish(b, magnets, job, Tolerances.House, _memory);
        FixtureDesign design = finished.Value ?? b with { Magnets = magnets };
        return Stage.Answer(new Laid(job, b, design), [.. _ground.Findings, .. begun.Findings, .. finished.Findings]);
    }

    private static MagnetPlace Rounded(MagnetPlace m, Placed p) =>
        m.FromDrawing ? m : m with { At = WrittenPlace.OnPlate(m.At, p.Placement.Pose, p.Job) };

    /// <summary>The ports that the page asks for as the job states them: part frame, rounded as they are written.</summary>
    public static ImmutableArray<Point2> PortsOf(LayoutAsk ask, Placed p) =>
        [.. ask.Ports.Select(port => WrittenPlace.InPart(port, p.Placement.Pose, p.Job))];

    /// <summary>The job with the settings that the page asks for, placed.</summary>
    public Stage<Placed> PlacedFor(LayoutAsk ask)
    {
        // The number of magnets is the layout's own.
        PageSettings asked = ask.Settings with
        {
            Count = 0,
        };
        if (_asked is { } last && last == (asked, ask.Placement))
        {
            return Stage.Answer(Current);
        }
        Stage<string> text = LayoutSettings.Write(request.JobText, request.JobFile, _original, asked);
        if (text.Ok && ask.Placement is { } pose)
        {
            text = JobEdit.SetPlacement(text.Value!, request.JobFile, pose);
        }
        if (!text.Ok)
        {
            return Stage.Failed<Placed>(text.Findings);
        }
        Stage<Placed> placed = Pipeline.Place(request with { JobText = text.Value! });
        if (placed.Ok)
        {
            Current = placed.Value!;
            _asked = (asked, ask.Placement);
            _ground = null;
            Like = null;
        }
        return placed;
    }
}
