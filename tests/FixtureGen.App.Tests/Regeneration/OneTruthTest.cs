using System.Data.Common;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>Database and readable copy are one register: either makes the other anew, a killed run is mended, a quarrel is told.</summary>
public sealed class OneTruthTest
{
    private static readonly Noting Cut = new("clip", Happening.Cut);

    [Fact]
    public void The_copy_rebuilds_the_database_to_the_last_row()
    {
        using ShelfLibrary library = Full();
        Register before = library.Read();
        Assert.NotEmpty(before.Files);
        Assert.NotEmpty(before.Notices);
        File.Delete(library.Database);
        Same(before, library.Read());
        Assert.Empty(library.Change(r => Stage.Answer(r.Noted(ShelfLibrary.At(9), Happening.TakenOver))));
        Assert.True(File.Exists(library.Database));
        string copy = File.ReadAllText(library.Copy);
        File.Delete(library.Copy);
        Register again = library.Read();
        Assert.Equal(before.Events.Length + 1, again.Events.Length);
        Assert.Empty(library.Change(Stage.Answer));
        Assert.Equal(copy, File.ReadAllText(library.Copy));
    }

    [Fact]
    public void Text_of_any_letters_comes_back()
    {
        using ShelfLibrary library = Full();
        const string Why = "\"quoted\" \\ back\nline\ttab \u0001 äöü 漢字 = [x]";
        Assert.Empty(library.Note(new Noting("clip", Happening.Worn), Why));
        Assert.Equal(Why, library.Read().Events[^1].Why);
        File.Delete(library.Database);
        Assert.Equal(Why, library.Read().Events[^1].Why);
    }

    /// <summary>The database was committed, the copy not yet in its place.</summary>
    [Fact]
    public void A_run_that_was_killed_between_the_two_is_mended_by_the_next()
    {
        using ShelfLibrary library = Full();
        byte[] old = File.ReadAllBytes(library.Copy);
        Assert.Empty(library.Note(new Noting("clip", Happening.Worn)));
        byte[] written = File.ReadAllBytes(library.Copy);
        File.WriteAllBytes(library.Copy, old);
        Assert.Equal(FixtureState.Worn, library.Read().Current("clip")!.State);
        Assert.Empty(library.Change(Stage.Answer));
        Assert.Equal(written, File.ReadAllBytes(library.Copy));
    }

    [Fact]
    public void A_copy_that_somebody_changed_is_told_and_nothing_is_guessed()
    {
        using ShelfLibrary library = Full();
        File.WriteAllText(
            library.Copy,
            File.ReadAllText(library.Copy).Replace("program = 1010", "program = 1020", StringComparison.Ordinal)
        );
        byte[] database = File.ReadAllBytes(library.Database);
        Assert.Equal("register-altered", Assert.Single(library.Note(Cut)).Code);
        Assert.Equal("register-altered", Assert.Single(RegisterFile.Read(library.Jobs).Findings).Code);
        Assert.Equal(database, File.ReadAllBytes(library.Database));
        using (RegisterFile file = RegisterFile.Hold(library.Jobs, TimeSpan.Zero).Value!)
        {
            Assert.Null(file.Rebuild(fromCopy: true));
        }
        Assert.Equal(1020, library.Read().Current("clip")!.Program);
        Assert.True(File.Exists(Path.Combine(library.Jobs, "library.before.db")));
    }

    [Fact]
    public void A_spoilt_database_is_told_and_rebuilt_from_the_copy()
    {
        using ShelfLibrary library = Full();
        Register before = library.Read();
        File.WriteAllText(library.Database, "this is no database, whatever its name says\n");
        Finding told = Assert.Single(RegisterFile.Read(library.Jobs).Findings);
        Assert.Equal("register-damaged", told.Code);
        Assert.Contains("--rebuild copy", told.Remedy, StringComparison.Ordinal);
        using (RegisterFile file = RegisterFile.Hold(library.Jobs, TimeSpan.Zero).Value!)
        {
            Assert.Null(file.Rebuild(fromCopy: true));
        }
        Same(before, library.Read());
    }

    /// <summary>The text as every version before the database wrote it.</summary>
    [Fact]
    public void A_register_of_before_is_taken_over_once_with_a_copy_kept()
    {
        using ShelfLibrary library = new();
        const string Old =
            "# The register of fixtures\n\n[[fixture]]\njob = \"clip\"\nid = \"F1000\"\nrevision = 1\nprogram = 1000\nplate = \"master\"\nplate_revision = 3\nstate = \"worn\"\n\n[[fixture]]\njob = \"clip\"\nid = \"F1010\"\nrevision = 2\nprogram = 1010\nplate = \"master\"\nplate_revision = 4\nstate = \"planned\"\n";
        File.WriteAllText(library.Copy, Old);
        Assert.Equal(2, library.Read().Fixtures.Length);
        Assert.False(File.Exists(library.Database));
        Assert.Empty(library.Change(Stage.Answer));
        Assert.Equal(Old, File.ReadAllText(Path.Combine(library.Jobs, "library.before.toml")));
        Register taken = library.Read();
        Assert.Equal((1, FixtureState.Worn), (taken.Blocks.Single().Number, taken.Blocks.Single().State));
        Assert.Equal([Happening.TakenOver, Happening.Cut, Happening.Worn], taken.Events.Select(e => e.What));
        Assert.Empty(library.Change(Stage.Answer));
        Assert.Equal(3, library.Read().Events.Length);
    }

    [Fact]
    public void What_is_refused_writes_nothing()
    {
        using ShelfLibrary library = Full();
        (byte[] Database, byte[] Copy) before = (File.ReadAllBytes(library.Database), File.ReadAllBytes(library.Copy));
        Assert.NotEmpty(library.Note(new Noting("nobody", Happening.Cut)));
        Assert.NotEmpty(library.Note(Cut));
        Assert.Equal(
            "number-used-twice",
            Assert
                .Single(
                    library.Change(r =>
                    {
                        Register twice = r.With(r.Current("clip")! with { Job = "other" });
                        return Stage.Answer(twice, twice.Contradictions("library.toml"));
                    })
                )
                .Code
        );
        Assert.Equal(before.Database, File.ReadAllBytes(library.Database));
        Assert.Equal(before.Copy, File.ReadAllBytes(library.Copy));
    }

    [Fact]
    public void Events_can_neither_be_changed_nor_dropped()
    {
        using ShelfLibrary library = Full();
        using DbConnection connection = RegisterConnection.ForWriting(library.Database);
        foreach (string sql in (string[])["DELETE FROM event", "UPDATE event SET why = 'other'"])
        {
            using DbCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // the two lines above
            command.CommandText = sql;
#pragma warning restore CA2100
            Assert.Contains(
                "only added to",
                Assert.ThrowsAny<DbException>(() => command.ExecuteNonQuery()).Message,
                StringComparison.Ordinal
            );
        }
    }

    /// <summary>A fixture with a block on the shelf, its files, a notice and a past; another one planned.</summary>
    private static ShelfLibrary Full()
    {
        ShelfLibrary library = new();
        library.Make("clip", 1, 1010);
        library.Make("hook", 1, 1000);
        Assert.Empty(library.Note(Cut, "first"));
        Assert.Empty(library.Note(new Noting("clip", Happening.Cycles) { Amount = 250 }));
        Assert.Empty(
            library.Change(r =>
                Stage.Answer(
                    NoticeEvents.Give(
                        r,
                        r.Current("clip")!,
                        "its bolt hole is 0.30 mm off the plate's",
                        ShelfLibrary.At(2)
                    )
                )
            )
        );
        return library;
    }

    private static void Same(Register expected, Register actual)
    {
        Assert.Equal(expected.Fixtures, actual.Fixtures);
        Assert.Equal(expected.Blocks, actual.Blocks);
        Assert.Equal(expected.Files, actual.Files);
        Assert.Equal(expected.Notices, actual.Notices);
        Assert.Equal(expected.Events, actual.Events);
    }
}
