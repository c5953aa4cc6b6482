using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Jobs;
using FixtureGen.App.Page.Overview;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>
/// The shop's files: listed, each as a form whose keys, ranges and findings come from the very reader that jobs read it with, tried
/// against the library, and written. A question names a file by kind and name; only a file that stands in its kind's folder is opened.
/// </summary>
/// <param name="folder">The folder that the page works on.</param>
/// <param name="jobs">The paths of its jobs.</param>
/// <param name="nameOf">A job's name in the list of jobs.</param>
/// <param name="run">Where trials run.</param>
internal sealed partial class ShopDrawer(
    string folder,
    Func<ImmutableArray<string>> jobs,
    Func<string, string> nameOf,
    RegenerationRun run
)
{
    private const int MostLetters = 200_000;
    private const int MostValue = 4000;

    /// <summary>Every file with its picture.</summary>
    public PageAnswer List() =>
        InLibrary(library =>
        {
            ShopFiles shop = library.Shop(null);
            ShopUse use = new(jobs(), nameOf, library);
            return PageAnswer.Json(
                200,
                new ShopAnswer(
                    library.Templates,
                    [
                        .. ShopKind.All.Select(k => new ShopKindEntries(
                            k.Folder,
                            [.. shop.List(k.Folder).Select(name => Entry(k, name, library, use))]
                        )),
                    ]
                ),
                ShopJson.Default.ShopAnswer
            );
        });

    /// <summary>A file as it is on disk.</summary>
    public PageAnswer Read(string kind, string name) =>
        OfFile(
            kind,
            name,
            (library, of, path) =>
            {
                JobText text = JobText.Read(path);
                ShopUse use = new(jobs(), nameOf, library);
                ShopFileAnswer answer = Describe(library, of, name, SourceText.Bounded(path, text.Text));
                return PageAnswer.Json(
                    200,
                    answer with
                    {
                        Hash = Hash(path),
                        UsedBy = use.Jobs(kind, name),
                    },
                    ShopJson.Default.ShopFileAnswer
                );
            }
        );

    /// <summary>The hash of a file as it is on disk now.</summary>
    public PageAnswer Pulse(string kind, string name) => OfFile(kind, name, (_, _, path) => Saved("", path));

    /// <summary>What a text comes to, with one change more; nothing is written.</summary>
    public PageAnswer Edit(ShopEditQuestion asked) =>
        OfFile(
            asked.Kind,
            asked.Name,
            (library, of, path) =>
            {
                Stage<string> text = Text(asked.Text, path);
                if (text.Ok && asked.Edit is { } edit)
                {
                    text = Changed(text.Value!, edit, of, asked.Name, library);
                }
                return text.Ok
                    ? PageAnswer.Json(
                        200,
                        Describe(library, of, asked.Name, text.Value!),
                        ShopJson.Default.ShopFileAnswer
                    )
                    : PageAnswer.Refused(text.Findings);
            }
        );

    /// <summary>
    /// Writes a text: 409 where the disk has another file than it was read from, 422 where its reader refuses it (a file that it
    /// refused before may be mended in steps).
    /// </summary>
    public PageAnswer Save(ShopSaveQuestion asked) => asked.New ? Create(asked) : Overwrite(asked);

    /// <summary>What the library would come to with the text in the file's place.</summary>
    public PageAnswer Try(ShopTrialQuestion asked) =>
        OfFile(
            asked.Kind,
            asked.Name,
            (library, of, path) =>
            {
                Stage<string> text = Text(asked.Text, path);
                Stage<object> read = text.Ok
                    ? of.Read(text.Value!, ShopUse.Shown(asked.Kind, asked.Name), asked.Name)
                    : Stage.Failed<object>(text.Findings);
                return read.Ok
                    ? run.Try(library, asked.Kind, asked.Name, text.Value!)
                    : PageAnswer.Refused("nothing can be tried with a file that cannot be read", read.Findings);
            }
        );

    private PageAnswer Overwrite(ShopSaveQuestion asked) =>
        OfFile(
            asked.Kind,
            asked.Name,
            (library, of, path) =>
            {
                string shown = ShopUse.Shown(asked.Kind, asked.Name);
                if (Hash(path) != asked.Hash)
                {
                    return PageAnswer.Say(
                        409,
                        $"{shown} changed on disk since it was read here: nothing was written. Take over the file, then change it again."
                    );
                }
                JobText onDisk = JobText.Read(path);
                Stage<string> text = Text(asked.Text, path);
                Stage<object> read = text.Ok
                    ? of.Read(text.Value!, shown, asked.Name)
                    : Stage.Failed<object>(text.Findings);
                if (!text.Ok || (!read.Ok && of.Read(onDisk.Text, shown, asked.Name).Ok))
                {
                    return PageAnswer.Refused("not written, since no job could be made with it", read.Findings);
                }
                onDisk.Replace(text.Value!);
                return Saved($"Saved to {shown}.", path);
            }
        );

    private PageAnswer Create(ShopSaveQuestion asked) =>
        InLibrary(library =>
        {
            if (Kind(asked.Kind) is not { } of)
            {
                return NoSuchFile(asked.Kind, asked.Name);
            }
            string path = Path.Combine(library.Templates, asked.Kind, asked.Name + ".toml");
            string shown = ShopUse.Shown(asked.Kind, asked.Name);
            if (!FileName().IsMatch(asked.Name))
            {
                return PageAnswer.NotUnderstood([
                    new Finding(
                        "request-out-of-range",
                        Severity.Error,
                        "name",
                        $"'{asked.Name}' is no name for a file of the shop",
                        "take small letters, figures and hyphens, 60 at the most"
                    ),
                ]);
            }
            if (File.Exists(path))
            {
                return PageAnswer.Say(409, $"{shown} is there already: nothing was written. Take another name.");
            }
            Stage<string> text = Text(asked.Text, path);
            Stage<object> read = text.Ok
                ? of.Read(text.Value!, shown, asked.Name)
                : Stage.Failed<object>(text.Findings);
            if (!read.Ok)
            {
                return PageAnswer.Refused("not written, since no job could be made with it", read.Findings);
            }
            using (StreamWriter file = new(new FileStream(path, FileMode.CreateNew, FileAccess.Write)))
            {
                file.Write(text.Value);
            }
            return Saved($"Wrote {shown}.", path);
        });

    private static PageAnswer Saved(string message, string path) =>
        PageAnswer.Json(200, new ShopSavedAnswer(message, Hash(path)), ShopJson.Default.ShopSavedAnswer);

    private static ShopKind? Kind(string folder) => ShopKind.All.FirstOrDefault(k => k.Folder == folder);

    private static PageAnswer NoSuchFile(string kind, string name) =>
        PageAnswer.Say(404, $"the shop has no {kind}/{name} any more");

    private PageAnswer InLibrary(Func<LibraryFolder, PageAnswer> answer)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(folder, "x"));
        if (library.Value is not { } found)
        {
            return PageAnswer.Refused(library.Findings);
        }
        try
        {
            return answer(found);
        }
        catch (UnreadableFileException e)
        {
            return PageAnswer.Refused([e.Finding]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return PageAnswer.Say(
                409,
                $"the file cannot be read or written: {e.Message}. Free it, its folder or its disk; nothing was lost."
            );
        }
    }

    private PageAnswer OfFile(string kind, string name, Func<LibraryFolder, ShopKind, string, PageAnswer> answer) =>
        InLibrary(library =>
            Kind(kind) is { } of && library.Shop(null).List(kind).Contains(name, StringComparer.Ordinal)
                ? answer(library, of, Path.Combine(library.Templates, kind, name + ".toml"))
                : NoSuchFile(kind, name)
        );

    /// <summary>The page's text, where it is one that a file may have.</summary>
    private static Stage<string> Text(string text, string path)
    {
        if (text.Length > MostLetters || text.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t')))
        {
            return Stage.Failed<string>(RequestFindings.Unwritable("text"));
        }
        return Stage.Answer(SourceText.Bounded(path, text));
    }

    private static Stage<string> Changed(string text, ShopEdit edit, ShopKind of, string name, LibraryFolder library)
    {
        string file = ShopUse.Shown(of.Folder, name);
        if (edit.Value is { Length: > MostValue } || edit.Value?.Any(char.IsControl) == true)
        {
            return Stage.Failed<string>(RequestFindings.Unwritable(edit.Path));
        }
        ImmutableArray<KeyField> keys = of.Keys(text, file, library.Shop(null));
        if (edit.Act is "copy" or "take-out")
        {
            string[] rows = Rows(keys);
            return !rows.Contains(edit.Path, StringComparer.Ordinal)
                    ? Stage.Failed<string>(RequestFindings.NotAChoice("edit.path", edit.Path, rows))
                : edit.Act == "copy" ? JobEdit.CopyRow(text, file, edit.Path)
                : JobEdit.RemoveRow(text, file, edit.Path);
        }
        if (keys.FirstOrDefault(k => k.Path == edit.Path) is not { } key)
        {
            return Stage.Failed<string>(RequestFindings.NotAChoice("edit.path", edit.Path, keys.Select(k => k.Path)));
        }
        return edit.Act switch
        {
            "leave-out" => JobEdit.Remove(text, file, edit.Path),
            "set" when !string.IsNullOrWhiteSpace(edit.Value) => JobEdit.Set(
                text,
                file,
                edit.Path,
                key.Literal(edit.Value)
            ),
            "set" => JobEdit.Remove(text, file, edit.Path),
            _ => Stage.Failed<string>(
                RequestFindings.NotAChoice("edit.act", edit.Act, ["set", "leave-out", "copy", "take-out"])
            ),
        };
    }

    private static ShopFileAnswer Describe(LibraryFolder library, ShopKind of, string name, string text)
    {
        string file = ShopUse.Shown(of.Folder, name);
        Stage<object> read = of.Read(text, file, name);
        ImmutableArray<KeyField> keys = of.Keys(text, file, library.Shop(null));
        return new ShopFileAnswer
        {
            Kind = of.Folder,
            Name = name,
            File = file,
            Text = text,
            Hash = "",
            Unit = keys.FirstOrDefault(k => k.Path == "units")?.Stated == "\"in\"" ? "in" : "mm",
            Keys = [.. keys.Select(k => new ShopKey(JobForm.Field(k), k.Line))],
            Rows = Rows(keys),
            Findings = PageAnswer.Lines(read.Findings),
            Pictures = read.Value is { } record ? ShopPictures.Draw(record) : [],
            UsedBy = [],
        };
    }

    /// <summary>The rows that a reader asked keys of.</summary>
    private static string[] Rows(ImmutableArray<KeyField> keys) =>
        [
            .. keys.Where(k => k.Path.Contains(']', StringComparison.Ordinal))
                .Select(k => k.Path[..(k.Path.LastIndexOf(']') + 1)])
                .Distinct(StringComparer.Ordinal),
        ];

    private static ShopEntry Entry(ShopKind of, string name, LibraryFolder library, ShopUse use)
    {
        string file = ShopUse.Shown(of.Folder, name);
        UsingJob[] users = use.Jobs(of.Folder, name);
        (int named, int open) = (users.Count(j => j.Named), users.Count(j => !j.Named));
        try
        {
            string text = SourceText.Read(Path.Combine(library.Templates, of.Folder, name + ".toml"));
            Stage<object> read = of.Read(text, file, name);
            return new ShopEntry(
                name,
                (read.Value as ShopItem)?.Description ?? (read.Value as PlateFile)?.Plate.Description ?? "",
                read.Findings.Count(f => f.Severity == Severity.Error),
                read.Findings.Count(f => f.Severity == Severity.Warning),
                named,
                open,
                read.Value is { } record ? ShopPictures.Draw(record)[0] : null
            );
        }
        catch (UnreadableFileException e)
        {
            return new ShopEntry(name, e.Message, 1, 0, named, open, null);
        }
    }

    private static string Hash(string path) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));

    [GeneratedRegex("^[a-z0-9][a-z0-9._-]{0,59}$")]
    private static partial Regex FileName();
}
