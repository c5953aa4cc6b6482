using System.Diagnostics;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>No two jobs of a library get the same number, however it is written, whoever is first, and as long as any is free.</summary>
public sealed class NumbersTest
{
    private static readonly Occasion Today = ShelfLibrary.At(0);

    private static readonly Fixture Sheath = new("sheath", "F1000", 1, 1000, "master", 3, FixtureState.Cut);

    [Fact]
    public void Numbers_go_out_by_sorted_name_and_never_twice()
    {
        NumberWish[] wishes = [Free("d"), Free("b") with { Stated = 1010 }, Free("a"), Free("sheath")];
        Register claimed = Numbering.Claim(Register.Empty.With(Sheath), wishes, [], Today);
        Assert.Equal(
            [("a", 1020), ("b", 1010), ("d", 1030), ("sheath", 1000)],
            claimed.Fixtures.Select(f => (f.Job, f.Program))
        );
        Register again = Numbering.Claim(claimed, [.. wishes.Reverse()], [], Today);
        Assert.Equal(claimed.Fixtures, again.Fixtures);
    }

    [Fact]
    public void Spare_numbers_pass_over_those_that_somebody_has()
    {
        Register register = Register.Empty.With([Sheath, Sheath with { Job = "other", Program = 1020 }]);
        IReadOnlyDictionary<string, int> spare = Numbering.Spare(
            register,
            [Free("b"), Free("a"), Free("c")],
            [1030],
            ["b", "a", "c"]
        );
        Assert.Equal([1010, 1040, 1050], new[] { "a", "b", "c" }.Select(j => spare[j]));
    }

    /// <summary>TOML 1.0 writes whole numbers with underscores and in base 16 too, and keys in quotes.</summary>
    [Theory]
    [InlineData("program = 1_100", 1100)]
    [InlineData("program = 0x44c", 1100)]
    [InlineData("\"program\" = 1100", 1100)]
    [InlineData("program = +1100 # as agreed", 1100)]
    [InlineData("title = '''\nprogram = 7\n'''", null)]
    [InlineData("[rules]\nprogram = 1100", null)]
    [InlineData("program = \"1100\"", null)]
    public void A_stated_number_is_read_as_TOML(string text, int? stated) =>
        Assert.Equal(stated, NumberWish.Read(text).Stated);

    /// <summary>Nine hundred tens of a control of four digits: the gaps between them are given out then.</summary>
    [Fact]
    public void Four_digits_serve_three_thousand_jobs_and_then_say_so()
    {
        NumberRange four = new(1000, 9999);
        NumberWish[] wishes =
        [
            .. Enumerable
                .Range(0, 2800)
                .Select(i => new NumberWish(i.ToString("0000", CultureInfo.InvariantCulture), null, four)),
        ];
        Register claimed = Numbering.Claim(Register.Empty, wishes, [], Today);
        int[] numbers = [.. claimed.Fixtures.Select(f => f.Program).Order()];
        Assert.InRange(numbers.Length, 2700, 2800);
        Assert.All(numbers.Zip(numbers[1..]), p => Assert.True(p.Second - p.First >= 3));
        Assert.InRange(numbers[^1], 0, 9997);
        Assert.Empty(claimed.Contradictions(""));
        NumberWish more = new("more", null, new NumberRange(1000, 99999999));
        Assert.Equal(10000, Numbering.Claim(claimed, [more], [], Today).Current("more")!.Program);
    }

    [Fact]
    public void Ranges_come_from_the_library_and_the_control()
    {
        using ShelfLibrary library = Numbered("first = 2000\nlast = 2999\n");
        Assert.Equal([2000, 2010], Claim(library).Value!.Fixtures.Select(f => f.Program));
        using ShelfLibrary narrow = Numbered("first = 2000\nlast = 2004\n");
        Assert.Equal(["numbers-used-up"], Claim(narrow).Findings.Select(f => f.Code));
        using ShelfLibrary wrong = Numbered("frist = 2000\n");
        Finding told = Assert.Single(Claim(wrong).Findings);
        Assert.Equal(("numbers-unreadable", "templates/numbers.toml:1:1"), (told.Code, told.Where));
    }

    [Fact]
    public void Retiring_a_job_frees_its_number_and_keeps_its_past()
    {
        using ShelfLibrary library = new();
        library.Make("clip", 1, 1010);
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Equal("retire-refused", Assert.Single(library.Note(new Noting("clip", Happening.Retired))).Code);
        Assert.Empty(library.Note(new Noting("clip", Happening.Scrapped)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Retired), "not sold any more"));
        Register retired = library.Read();
        Assert.Empty(retired.Fixtures);
        Assert.Equal("not sold any more (F1010 r1 1010)", retired.Events[^1].Why);
        Assert.Equal(1000, Numbering.Claim(retired, [Free("new")], [], Today).Current("new")!.Program);
    }

    [Fact]
    public void Folders_of_one_library_know_each_others_numbers_and_names()
    {
        using ShelfLibrary library = Numbered("");
        library.Make("a", 1, 1000);
        string sub = Directory.CreateDirectory(Path.Combine(library.Jobs, "sub")).FullName;
        Job(sub, "c", "");
        Stage<Register> there = LibraryNumbers.Claimed(sub, "c.toml", Register.Empty, Today);
        Assert.Equal(1010, there.Value!.Current("c")!.Program);

        Job(sub, "a", "");
        Finding twice = Assert.Single(LibraryNumbers.Claimed(sub, "a.toml", Register.Empty, Today).Findings);
        Assert.Equal("job-twice", twice.Code);
        Assert.Contains("outlines", twice.Message, StringComparison.Ordinal);

        File.Delete(Path.Combine(sub, "a.toml"));
        Job(sub, "c", "program = 1001\n");
        Assert.Equal(
            "number-used-twice",
            Assert.Single(LibraryNumbers.Claimed(sub, "c.toml", Register.Empty, Today).Findings).Code
        );
    }

    /// <summary>What a shop does with its files: a copy of a job, a job renamed, a job whose name looks like a kept folder.</summary>
    [Fact]
    public void A_copied_job_is_refused_and_everything_works_again_once_it_is_gone()
    {
        using ShelfLibrary library = new();
        Job(library.Jobs, "a", "program = 1100\n");
        Assert.Empty(library.Change(r => LibraryNumbers.Claimed(library.Jobs, "a.toml", r, Today)));
        byte[] before = File.ReadAllBytes(library.Copy);
        Job(library.Jobs, "copy", "program = 1100\n");
        Assert.Equal(
            "number-used-twice",
            Assert.Single(library.Change(r => LibraryNumbers.Claimed(library.Jobs, "a.toml", r, Today))).Code
        );
        Assert.Equal(before, File.ReadAllBytes(library.Copy));
        File.Delete(Path.Combine(library.Jobs, "copy.toml"));
        Job(library.Jobs, "a.r2", "");
        Assert.Empty(library.Change(r => LibraryNumbers.Claimed(library.Jobs, "a.toml", r, Today)));
        Assert.Equal(["a", "a.r2"], library.Read().Fixtures.Select(f => f.Job));
    }

    /// <summary>Between reading the register and writing it another run may take the number that this one has worked with.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Two_makes_at_once_in_a_fresh_folder_get_two_numbers()
    {
        string[] jobs = ["hook-cradle", "label-clip"];
        using TempLibrary library = new(jobs);
        foreach (string job in jobs)
        {
            string text = File.ReadAllText(library.Job(job));
            File.WriteAllText(
                library.Job(job),
                string.Join('\n', text.Split('\n').Where(l => !l.StartsWith("program", StringComparison.Ordinal)))
            );
        }
        // the first is made before the second, whose name comes before its own, is there
        foreach (string end in (string[])[".toml", ".dxf"])
        {
            File.Move(Path.Combine(library.Jobs, jobs[0] + end), Path.Combine(library.Folder, jobs[0] + end));
        }
        Assert.Equal(0, Cli.Run(library.Folder, "make", library.Job(jobs[1])).Exit);
        foreach (string end in (string[])[".toml", ".dxf"])
        {
            File.Move(Path.Combine(library.Folder, jobs[0] + end), Path.Combine(library.Jobs, jobs[0] + end));
        }
        using Process first = Process.Start(Cli.Start(library.Folder, "make", library.Job(jobs[0])))!;
        Task<string> error = first.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        Ran second = Cli.Run(library.Folder, "make", library.Job(jobs[1]));
        first.StandardOutput.ReadToEnd();
        first.WaitForExit();
        Assert.True(second.Exit == 0, second.Error);
        Assert.True(first.ExitCode == 0, error.GetAwaiter().GetResult());
        int[] numbers =
        [
            .. Cli.Run(library.Folder, "register", library.Jobs, "--json").Json["fixtures"]!
                .AsArray()
                .Select(f => (int)f!["programNumber"]!),
        ];
        Assert.Equal(numbers.Distinct(), numbers);
        Assert.Equal(2, numbers.Length);
    }

    private static NumberWish Free(string job) => new(job, null, NumberRange.House);

    private static ShelfLibrary Numbered(string numbers)
    {
        ShelfLibrary library = new();
        if (numbers.Length > 0)
        {
            File.WriteAllText(Path.Combine(library.Root, "templates", "numbers.toml"), numbers);
        }
        Job(library.Jobs, "a", "");
        Job(library.Jobs, "b", "");
        return library;
    }

    private static Stage<Register> Claim(ShelfLibrary library) =>
        LibraryNumbers.Claimed(library.Jobs, "a.toml", Register.Empty, Today);

    private static void Job(string folder, string name, string text)
    {
        File.WriteAllText(Path.Combine(folder, name + ".toml"), text);
        File.WriteAllText(Path.Combine(folder, name + ".dxf"), "");
    }
}
