using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Chains the curves of one role by themselves and refuses what is open, crossed or not single; centre lines and stubs are told.</summary>
internal sealed class RoleLoops(string file, ChainLimits limits, List<Finding> findings)
{
    /// <summary>The role's loops; open chains and crossings become errors here.</summary>
    public ImmutableArray<DrawnLoop> Closed(ImmutableArray<DrawnCurve> curves, string role)
    {
        if (curves.IsEmpty)
        {
            return [];
        }
        Chained chained = Chainer.Chain(curves, limits, file);
        string? join = JoinThatCloses(curves, chained);
        foreach (Finding finding in chained.Findings)
        {
            bool told = finding.Code is "centre-line" or "stub";
            findings.Add(
                finding with
                {
                    Severity = told ? finding.Severity : Severity.Error,
                    Message = $"{finding.Message} ({role})",
                    Remedy =
                        join is not null && finding.Code == "outline-open"
                            ? $"{finding.Remedy}, or {join}"
                            : finding.Remedy,
                }
            );
        }
        findings.AddRange(
            chained.Repairs.Select(r => new Finding(
                r.Code,
                Severity.Note,
                file,
                $"{r.Message} ({role}).",
                "nothing to do if the preview shows what was meant"
            ))
        );
        return chained.Loops;
    }

    // Tried before it is told: the least width of gap, in hundredths, that closes all small gaps, up to what a job may say.
    private string? JoinThatCloses(ImmutableArray<DrawnCurve> curves, Chained chained)
    {
        double[] gaps =
        [
            .. chained.Open.Select(o => OpenEnds.Gap(o, chained.Open)).Where(g => g <= DrawingRoles.WidestJoin),
        ];
        if (gaps.Length == 0)
        {
            return null;
        }
        double join = Math.Min(DrawingRoles.WidestJoin, Math.Ceiling((gaps.Max() * 100) + 1e-9) / 100);
        Chained tried = Chainer.Chain(curves, limits with { Join = join }, file);
        int more = tried.Loops.Length - chained.Loops.Length;
        return more <= 0
            ? null
            : DxfFindings.Text(
                $"state  [drawing] join = \"{join:0.##} mm\"  in the job: tried, it closes {more} curves and leaves {tried.Open.Length} open"
            );
    }

    /// <summary>The loops without those that two layers draw alike, which is noted.</summary>
    public ImmutableArray<DrawnLoop> Once(ImmutableArray<DrawnLoop> loops)
    {
        HashSet<int> twice = new Duplicates(limits).Find([.. loops.Select(l => l.Contour.Segments)]);
        if (twice.Count > 0)
        {
            findings.Add(PartFindings.CutoutTwice(file, twice.Count));
        }
        return [.. loops.Where((_, i) => !twice.Contains(i))];
    }

    /// <summary>
    /// The one outline; null where there is none or more than one. While a chain of its layer stays open, what closed may be
    /// its holes: then nothing is said of them.
    /// </summary>
    public DrawnLoop? Outline(ImmutableArray<DrawnLoop> loops)
    {
        List<DrawnLoop> outer = [.. loops.Where(l => l.Depth == 0)];
        if (findings.Exists(f => f.Code == "outline-open"))
        {
            return null;
        }
        if (outer.Count == 0)
        {
            findings.Add(PartFindings.NoLoop(file));
            return null;
        }
        if (outer.Count > 1)
        {
            findings.Add(PartFindings.SeveralParts(file, outer));
        }
        DrawnLoop[] islands = [.. loops.Where(l => l.Depth > 1)];
        if (islands.Length > 0)
        {
            findings.Add(PartFindings.Island(file, islands));
        }
        return outer[0];
    }

    /// <summary>Refuses cutouts that do not lie inside the outline and clear of each other.</summary>
    public void Within(DrawnLoop outline, ImmutableArray<DrawnLoop> cutouts)
    {
        DrawnLoop[] outside = [.. cutouts.Where(c => !LoopDepths.Around(outline, c))];
        if (outside.Length > 0)
        {
            findings.Add(PartFindings.CutoutOutside(file, outside));
        }
        ImmutableArray<DrawnLoop> nested = LoopDepths.Sorted([.. cutouts], out bool all);
        DrawnLoop[] islands = [.. nested.Where(c => c.Depth > 0)];
        if (!all)
        {
            findings.Add(ChainFindings.Tangled(file));
        }
        else if (islands.Length > 0)
        {
            findings.Add(PartFindings.Island(file, islands));
        }
        var crossings = new LoopCrossings(limits, file);
        crossings.Mark([outline, .. cutouts]);
        foreach (Finding finding in crossings.Findings.Where(f => f.Code == "loops-cross"))
        {
            if (!findings.Exists(f => f.Code == finding.Code && f.At == finding.At))
            {
                findings.Add(finding with { Severity = Severity.Error });
            }
        }
    }
}
