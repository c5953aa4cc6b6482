using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Files;

/// <summary>
/// The numbers of a folder's jobs beside those of every other folder of the library: no two jobs of a library have the same
/// number or, since out/JOB is one folder, the same name.
/// </summary>
internal sealed class FolderNumbers
{
    private readonly string _folder;
    private readonly ImmutableArray<NumberWish> _wishes;
    private readonly ImmutableArray<(string Folder, Fixture Fixture)> _neighbours;
    private readonly Occasion _occasion;

    private FolderNumbers(
        string folder,
        ImmutableArray<NumberWish> wishes,
        ImmutableArray<(string, Fixture)> neighbours,
        Occasion occasion
    )
    {
        _folder = folder;
        _wishes = wishes;
        _neighbours = neighbours;
        _occasion = occasion;
    }

    /// <summary>Reads what the jobs ask for and what the library's other folders have. Failed where templates/numbers.toml cannot be understood.</summary>
    public static Stage<FolderNumbers> Read(string folder, IEnumerable<string> jobFiles, Occasion occasion)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x"));
        if (!library.Ok)
        {
            return Stage.Failed<FolderNumbers>(library.Findings);
        }
        Stage<NumberRange> range = NumbersFile.Read(library.Value!);
        if (!range.Ok)
        {
            return Stage.Failed<FolderNumbers>(range.Findings);
        }
        ShopFiles shop = library.Value!.Shop(plateFile: null).Remembered();
        Stage<ImmutableArray<(string, Fixture)>> neighbours = Neighbours(library.Value, folder);
        return neighbours.Ok
            ? Stage.Answer(
                new FolderNumbers(
                    folder,
                    [.. jobFiles.Select(j => Wish(j, shop, range.Value!))],
                    neighbours.Value,
                    occasion
                )
            )
            : Stage.Failed<FolderNumbers>(neighbours.Findings);
    }

    /// <summary>
    /// The register with every job numbered. Failed, and then nothing is to be written, where two jobs would have one number or
    /// one name, or a range is used up.
    /// </summary>
    public Stage<Register> Claim(Register register)
    {
        Register claimed = Numbering.Claim(register, _wishes, _neighbours.Select(n => n.Fixture.Program), _occasion);
        string where = Path.Combine(_folder, Register.FileName);
        Finding[] wrong =
        [
            .. claimed.Contradictions(where),
            .. _wishes.Where(w => claimed.Current(w.Job) is null).Select(w => NoneLeft(w, where)),
            .. claimed.Fixtures.SelectMany(f => Quarrels(f, where)).DistinctBy(f => f.Message),
        ];
        return wrong.Length == 0 ? Stage.Answer(claimed) : Stage.Failed<Register>(wrong);
    }

    /// <summary>A number for the next revision of each of these jobs.</summary>
    public IReadOnlyDictionary<string, int> Spare(Register register, IEnumerable<string> jobs) =>
        Numbering.Spare(register, _wishes, _neighbours.Select(n => n.Fixture.Program), jobs);

    private IEnumerable<Finding> Quarrels(Fixture f, string where)
    {
        foreach ((string folder, Fixture other) in _neighbours)
        {
            if (other.Job == f.Job)
            {
                yield return new Finding(
                    "job-twice",
                    Severity.Error,
                    where,
                    $"{f.Job} is a job of {folder} too, and both would share out/{f.Job}",
                    "give one of them another file name"
                );
            }
            else if (Math.Abs(other.Program - f.Program) < Toolpaths.ProgramNumbers.PerJob)
            {
                yield return new Finding(
                    "number-used-twice",
                    Severity.Error,
                    where,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"program number {f.Program} of {f.Job} and {other.Program} of {other.Job} in {folder} share one: a job takes three in a row"
                    ),
                    "give one of them another 'program' number"
                );
            }
        }
    }

    private static Finding NoneLeft(NumberWish wish, string where) =>
        new(
            "numbers-used-up",
            Severity.Error,
            where,
            string.Create(
                CultureInfo.InvariantCulture,
                $"no three program numbers in a row are free from {wish.Range.First} to {wish.Range.Last} for {wish.Job}"
            ),
            "widen 'first' and 'last' of templates/numbers.toml or the control's program_number_max, or free numbers with 'fixturegen register DIR --retire JOB'"
        );

    /// <summary>A block on the shelf keeps its number, and none is left for its next revision.</summary>
    public static Finding NoneSpare(string jobFile) =>
        new(
            "numbers-used-up",
            Severity.Error,
            jobFile,
            "its next revision needs a number beside the block on the shelf, and no three in a row are free",
            "widen 'first' and 'last' of templates/numbers.toml or the control's program_number_max, or free numbers with 'fixturegen register DIR --retire JOB'"
        );

    private static NumberWish Wish(string jobFile, ShopFiles shop, NumberRange range)
    {
        (int? stated, string? control) = NumberWish.Read(TextOf(jobFile));
        Control? words =
            control is not null && Find(shop, control) is var (path, text)
                ? ControlReader.Read(text, path, control).Value
                : null;
        NumberRange own = words is null
            ? range
            : new(Math.Max(range.First, words.ProgramNumberMin), Math.Min(range.Last, words.ProgramNumberMax));
        return new(Path.GetFileNameWithoutExtension(jobFile), stated, own);
    }

    private static (string Path, string Text)? Find(ShopFiles shop, string control)
    {
        try
        {
            return shop.Find("controls", control);
        }
        catch (UnreadableFileException)
        {
            return null;
        }
    }

    /// <summary>What cannot be read asks for nothing here: reading the job says why.</summary>
    private static string TextOf(string jobFile)
    {
        try
        {
            return SourceText.Read(jobFile);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }

    private static Stage<ImmutableArray<(string, Fixture)>> Neighbours(LibraryFolder library, string folder)
    {
        string own = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        List<(string, Fixture)> fixtures = [];
        foreach (string other in JobFiles.FoldersBelow(library.Root))
        {
            if (
                Path.TrimEndingDirectorySeparator(Path.GetFullPath(other)) == own
                || other == library.Templates
                || !(
                    File.Exists(Path.Combine(other, Register.FileName))
                    || File.Exists(Path.Combine(other, Register.DatabaseName))
                )
            )
            {
                continue;
            }
            Stage<Register> register = RegisterFile.Read(other);
            if (!register.Ok)
            {
                return Stage.Failed<ImmutableArray<(string, Fixture)>>(register.Findings);
            }
            fixtures.AddRange(register.Value!.Fixtures.Select(f => (library.Relative(other), f)));
        }
        return Stage.Answer<ImmutableArray<(string, Fixture)>>([.. fixtures]);
    }
}
