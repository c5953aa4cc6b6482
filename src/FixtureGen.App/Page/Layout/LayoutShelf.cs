using System.Globalization;
using System.Text.Json;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Layout;

/// <summary>
/// Layouts of a job that were kept: NAME.layouts.json beside the job. Those with a name stay until they are forgotten; a save adds
/// one without a name, of which the newest are kept. No program is made from any of them before it is saved to the job.
/// </summary>
internal sealed class LayoutShelf(string jobPath)
{
    private const int MostNamed = 60;
    private const int MostSaved = 30;
    private const int MostLetters = 80;
    private const long MostBytes = 4_000_000;

    private static readonly Lock Gate = new();

    private string File => Path.ChangeExtension(jobPath, ".layouts.json");

    /// <summary>All of them; 422 where the file cannot be read, which is then never written over.</summary>
    public PageAnswer List() => With(kept => Answer(kept));

    /// <summary>Keeps a layout; one of the same name gives way.</summary>
    public PageAnswer Keep(KeepQuestion asked, PagePlacement placed)
    {
        string name = asked.Name.Trim();
        if (name.Length is 0 or > MostLetters || name.Any(char.IsControl) || asked.Factors.Length > MostLetters)
        {
            return PageAnswer.NotUnderstood([RequestFindings.Unwritable("name")]);
        }
        return With(kept =>
            kept.Count(k => k.Name.Length > 0 && k.Name != name) >= MostNamed
                ? PageAnswer.NotUnderstood([RequestFindings.TooMany("layouts", MostNamed + 1, MostNamed)])
                : Write([.. kept.Where(k => k.Name != name), Kept(asked, name, asked.Factors, placed)])
        );
    }

    /// <summary>Adds a layout that was saved to the history; what keeps it from being written is not the save's trouble.</summary>
    public void Remember(LayoutQuestion saved, PagePlacement placed) =>
        With(kept =>
        {
            int surplus = Math.Max(0, kept.Count(k => k.Name.Length == 0) + 1 - MostSaved);
            HashSet<KeptLayout> old = [.. kept.Where(k => k.Name.Length == 0).Take(surplus)];
            return Write([.. kept.Where(k => !old.Contains(k)), Kept(saved, "", "", placed)]);
        });

    /// <summary>Forgets one by its number in the list.</summary>
    public PageAnswer Forget(ForgetQuestion asked) =>
        With(kept =>
            asked.Number < 0 || asked.Number >= kept.Length
                ? PageAnswer.NotUnderstood([RequestFindings.Beyond("number", asked.Number, 0, kept.Length - 1)])
                : Write([.. kept.Where((_, i) => i != asked.Number)])
        );

    private static KeptLayout Kept(LayoutQuestion asked, string name, string factors, PagePlacement placed) =>
        new()
        {
            Name = name,
            At = DateTime.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            Factors = factors,
            Magnets = asked.Magnets,
            Ports = asked.Ports,
            Settings = asked.Settings,
            Placement = asked.Placement,
            Placed = placed,
        };

    private PageAnswer With(Func<KeptLayout[], PageAnswer> then)
    {
        lock (Gate)
        {
            try
            {
                FileInfo file = new(File);
                if (!file.Exists)
                {
                    return then([]);
                }
                return
                    file.Length <= MostBytes
                    && JsonSerializer.Deserialize(System.IO.File.ReadAllBytes(File), LayoutJson.Default.KeptLayouts)
                        is { } kept
                    ? then(kept.Layouts)
                    : Unreadable("it is too long or has no layouts");
            }
            catch (JsonException e)
            {
                return Unreadable(e.Message);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return PageAnswer.Say(409, $"the kept layouts cannot be read or written: {e.Message}");
            }
        }
    }

    private PageAnswer Write(KeptLayout[] kept)
    {
        string next = File + ".next";
        OutputFolder.WriteAside(
            next,
            JsonSerializer.SerializeToUtf8Bytes(new KeptLayouts(kept), LayoutJson.Default.KeptLayouts)
        );
        System.IO.File.Move(next, File, overwrite: true);
        return Answer(kept);
    }

    private static PageAnswer Answer(KeptLayout[] kept) =>
        PageAnswer.Json(200, new KeptLayouts(kept), LayoutJson.Default.KeptLayouts);

    private PageAnswer Unreadable(string why) =>
        PageAnswer.Refused([
            new Finding(
                "file-unreadable",
                Severity.Error,
                Path.GetFileName(File),
                why,
                "mend the file or move it away; it is not written over"
            ),
        ]);
}
