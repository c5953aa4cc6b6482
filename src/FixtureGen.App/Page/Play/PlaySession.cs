using System.Runtime.InteropServices;
using System.Text;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Jobs;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.App.Page.Play;

/// <summary>
/// Programs of one job played back: what the judge reads and what it carves, up to any line. A program edited by hand is judged like
/// our own. The design is kept as long as the job's files are those that it was drawn from.
/// </summary>
internal sealed class PlaySession(string jobPath)
{
    /// <summary>mm: what a screen shows of a block. The judge itself carves finer; its findings come from that.</summary>
    private const double ShownCell = 0.5;

    private readonly Lock _gate = new();
    private Drawn? _drawn;

    private sealed record Drawn(string Stamp, Job Job, FixtureDesign Design);

    /// <summary>The program as the judge reads it; 422 with findings where it is of no setup or the job cannot be drawn.</summary>
    public PageAnswer Play(string file, byte[] text) =>
        With(
            (job, design) =>
            {
                string program = Encoding.UTF8.GetString(text);
                VerifyResult result = Verifier.JudgeOne(job, design, file, program, null, [], Limits.House, null);
                if (result.Programs.IsEmpty || result.Programs[0].Motions.IsEmpty)
                {
                    return PageAnswer.Refused([.. result.Findings]);
                }
                ProgramVerdict verdict = result.Programs[0];
                return PageAnswer.Json(200, Describe(job, design, result, verdict), PlayJson.Default.PlayAnswer);
            }
        );

    /// <summary>
    /// The block as the judge carves it once a line is done, in the setup's frame: six numbers (columns, rows, cell in mm, Z of the raw
    /// top, least X and Y) and then the height of every cell, row by row from the lower left, all single floats, least byte first.
    /// With the trim the upper face of the shell follows in the same way, <see cref="ShellSheet.Gone"/> where it is cut away.
    /// </summary>
    public PageAnswer Carve(string file, byte[] text, int line, string setup) =>
        With(
            (job, design) =>
            {
                Setup? known = setup switch
                {
                    "underside" => Setup.Underside,
                    "top" => Setup.Top,
                    "trim" => Setup.Trim,
                    _ => null,
                };
                string program = FirstLines(Encoding.UTF8.GetString(text), line);
                VerifyResult result = Verifier.JudgeOne(
                    job,
                    design,
                    file,
                    program,
                    known,
                    [],
                    Limits.House with
                    {
                        Cell = ShownCell,
                    },
                    null
                );
                byte[] heights = Heights(result.Block, known == Setup.Underside ? Axis(design) : null);
                byte[] shell =
                    known == Setup.Trim ? MemoryMarshal.AsBytes(Shell(job, design, result).AsSpan()).ToArray() : [];
                return new PageAnswer(200, "application/octet-stream", (byte[])[.. heights, .. shell]);
            }
        );

    private static float[] Shell(Job job, FixtureDesign design, VerifyResult result) =>
        new ShellSheet(design, job, result.Block).Cut(
            result.Programs.IsEmpty ? [] : result.Programs[0].Motions,
            number => job.Tools.FirstOrDefault(t => t.Number == number)?.Diameter ?? 0
        );

    private static double Axis(FixtureDesign design) => design.Flip?.AxisX ?? design.Placement.BlankBox.Middle.X;

    private PageAnswer With(Func<Job, FixtureDesign, PageAnswer> answer)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(jobPath);
        if (library.Value is not { } found)
        {
            return PageAnswer.Refused(library.Findings);
        }
        lock (_gate)
        {
            InputStamp stamp = InputStamp.Take(jobPath, found);
            if (_drawn?.Stamp != stamp.Hash)
            {
                Stage<JobSource> source = JobSource.Read(jobPath);
                if (source.Value is not { } read)
                {
                    return PageAnswer.Refused(source.Findings);
                }
                Outcome outcome = Delivery.Check(read.RequestWith(stamp.Shop(found), static _ => { }));
                if (outcome is not { Job: { } job, Design: { } design })
                {
                    return PageAnswer.Refused(outcome.Findings);
                }
                _drawn = new Drawn(stamp.Hash, job, design);
            }
            return answer(_drawn!.Job, _drawn.Design);
        }
    }

    private static PlayAnswer Describe(Job job, FixtureDesign design, VerifyResult result, ProgramVerdict verdict)
    {
        Box2 b = design.Placement.BlankBox;
        HashSet<int> used = [.. verdict.Motions.Select(m => m.Tool)];
        return new PlayAnswer
        {
            Setup = verdict.Setup switch
            {
                Setup.Underside => "underside",
                Setup.Top => "top",
                Setup.Trim => "trim",
            },
            Ok = result.Ok,
            Lines = verdict.Lines,
            Minutes = Math.Round(verdict.Minutes, 3),
            Box =
                verdict.Setup == Setup.Underside
                    ? [(2 * Axis(design)) - b.MaxX, b.MinY, (2 * Axis(design)) - b.MinX, b.MaxY]
                    : [b.MinX, b.MinY, b.MaxX, b.MaxY],
            RawTop = design.RawThickness,
            Jackets =
                verdict.Setup == Setup.Trim
                    ? [.. design.Magnets.SelectMany(m => new[] { Round(m.At.X), Round(m.At.Y) })]
                    : [],
            Jacket = [job.Magnet.JacketDiameter, job.Magnet.JacketHeight, design.FixtureHeight + job.Shell.Thickness],
            Motions = [.. verdict.Motions.SelectMany(Numbers)],
            Centres = [.. verdict.Motions.SelectMany(m => new[] { Round(m.Centre.X), Round(m.Centre.Y) })],
            Tools =
            [
                .. job
                    .Tools.Where(t => used.Contains(t.Number))
                    .Select(t => new PlayTool(
                        t.Number,
                        t.Name,
                        t.Diameter,
                        t.FluteLength,
                        t.ShankDiameter,
                        t.StickOut,
                        t.HolderDiameter,
                        t.TipAngleDeg
                    )),
            ],
            Findings = [.. verdict.Findings.Select(FindingPlaces.Describe)],
        };
    }

    private static double[] Numbers(Motion m) =>
        [
            m.Line,
            (int)m.Kind,
            Round(m.From.X),
            Round(m.From.Y),
            Round(m.From.Z),
            Round(m.To.X),
            Round(m.To.Y),
            Round(m.To.Z),
            m.Tool,
            Round(m.FeedMmPerMin),
        ];

    private static double Round(double v) => Math.Round(v, 3);

    private static string FirstLines(string text, int count)
    {
        int at = 0;
        for (int i = 0; i < count && at < text.Length; i++)
        {
            int end = text.IndexOf('\n', at);
            at = end < 0 ? text.Length : end + 1;
        }
        return text[..at];
    }

    /// <summary>The top's heights; with an axis to turn the block about, its underside's, as it lies then.</summary>
    private static byte[] Heights(BlockGrid block, double? axis)
    {
        (int columns, int rows) = (block.Columns, block.Rows);
        float[] numbers = new float[6 + (columns * rows)];
        (numbers[0], numbers[1]) = (columns, rows);
        (numbers[2], numbers[3]) = ((float)block.Cell, (float)block.RawTopZ);
        double right = block.Box.MinX + (columns * block.Cell);
        numbers[4] = (float)(axis is { } a ? (2 * a) - right : block.Box.MinX);
        numbers[5] = (float)block.Box.MinY;
        float[] row = new float[columns];
        for (int r = 0; r < rows; r++)
        {
            Span<float> to = numbers.AsSpan(6 + (r * columns), columns);
            if (axis is null)
            {
                block.Top(r, to);
                continue;
            }
            block.Bottom(r, row);
            for (int c = 0; c < columns; c++)
            {
                to[columns - 1 - c] = (float)block.RawTopZ - row[c];
            }
        }
        return MemoryMarshal.AsBytes(numbers.AsSpan()).ToArray();
    }
}
