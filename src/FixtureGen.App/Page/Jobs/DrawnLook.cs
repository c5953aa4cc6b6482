using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Serving;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.Jobs;

/// <summary>A dropped drawing as it is read: loops, gaps and roles in place, and what <c>new</c> would ask. Nothing is written.</summary>
internal static class DrawnLook
{
    /// <summary>The reader's answer for the page.</summary>
    /// <param name="path">Where the drawing would lie.</param>
    /// <param name="bytes">Its content.</param>
    /// <param name="unit">mm, in, or empty for what it states.</param>
    /// <param name="library">The shop's files.</param>
    public static PageAnswer Look(string path, byte[] bytes, string unit, LibraryFolder library)
    {
        string name = Path.GetFileName(path);
        Stage<DrawingContent> read = Read(bytes, name, unit);
        if (read.Value is not { } drawing)
        {
            return PageAnswer.Refused(read.Findings);
        }
        Stage<Part> part = PartBuilder.Build(drawing);
        ShopFiles files = library.Shop(null);
        DrawingFacts facts = NewJob.WithEdges(
            NewJob.Describe(path, drawing),
            drawing,
            Path.ChangeExtension(path, ".toml"),
            files
        );
        Box2 box = drawing.CurveBounds ?? default;
        Dictionary<string, string> roles = facts.Layers.ToDictionary(
            l => l.Name,
            l => Word(l.Role),
            StringComparer.OrdinalIgnoreCase
        );
        DrawnAnswer answer = new()
        {
            Name = name,
            Job = library.Relative(Path.ChangeExtension(path, ".toml")),
            Unit = drawing.Unit is null ? null : "mm",
            Box = [box.MinX, box.MinY, box.MaxX, box.MaxY],
            Loops = [.. drawing.Loops.Select(l => Loop(l, roles))],
            Gaps = [.. drawing.Open.Select(Gap)],
            Roles = [.. facts.Layers.Select(l => new RoleLook(l.Name, Word(l.Role), l.Closed, l.Open))],
            Findings =
            [
                .. PartBuilder
                    .BesideThePart(read.Findings)
                    .Concat(part.Findings)
                    .Select(f => FindingPlaces.Describe(f)),
            ],
            Fit = part.Ok,
            Answers = new(
                [.. JobTemplate.Shells(files)],
                facts.Last.Shell,
                facts.Last.Thickness,
                facts.Last.Slack,
                facts.Last.Locator
            )
            {
                AskHoles = facts.Edges.AsksHoles ? facts.Edges.HolesInWords() : "",
                AskCorners = facts.Edges.AsksCorners ? facts.Edges.CornersInWords() : "",
            },
        };
        return PageAnswer.Json(200, answer, JobsJson.Default.DrawnAnswer);
    }

    /// <summary>The drawing, read with a unit that is stated for it or its own.</summary>
    public static Stage<DrawingContent> Read(byte[] bytes, string name, string unit) =>
        DxfReader.Read(
            bytes,
            name,
            unit switch
            {
                "in" => LengthUnit.Inch,
                "mm" => LengthUnit.Millimetre,
                _ => null,
            },
            Tolerances.House
        );

    /// <summary>A layer's house role, else what it looks like; where one layer has all, the outermost is the outline.</summary>
    private static LoopLook Loop(DrawnLoop loop, Dictionary<string, string> roles)
    {
        string role =
            roles.TryGetValue(loop.Layer, out string? suggested) ? suggested
            : DrawingRoles.House.Layers.FirstOrDefault(r =>
                string.Equals(r.Name, loop.Layer, StringComparison.OrdinalIgnoreCase)
            )
                is { Name: not null } named
                ? Word(named.Role)
            : loop.Depth == 0 ? Word(CurveRole.Outline)
            : loop.Depth == 1 ? Word(CurveRole.Cutout)
            : "";
        return new(
            PlanShape.Path(loop.Contour.Segments, closed: true),
            loop.Layer,
            role,
            loop.Depth,
            loop.AreaMm2,
            loop.PerimeterMm,
            loop.Clean
        );
    }

    private static GapLook Gap(OpenChain chain) =>
        new(
            PlanShape.Path(chain.Path.Segments, closed: false),
            chain.Layer,
            chain.GapMm,
            [chain.Path.Start.X, chain.Path.Start.Y, chain.Path.End.X, chain.Path.End.Y]
        );

    private static string Word(CurveRole role) =>
        role switch
        {
            CurveRole.Outline => "outline",
            CurveRole.Cutout => "cutout",
            CurveRole.Engrave => "engrave",
            CurveRole.Form => "form",
            CurveRole.Magnet => "magnet",
            CurveRole.KeepOut => "keep-out",
            CurveRole.Ignore => "ignore",
        };
}
