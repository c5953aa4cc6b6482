using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>A notice stands until somebody answers it, whoever looks and however often.</summary>
public sealed class NoticesTest
{
    private const string What = "its bolt hole at X 10 Y 20 is 0.30 mm off the plate's";

    [Fact]
    public void The_same_is_given_once_and_stands()
    {
        using ShelfLibrary library = Given();
        Give(library);
        Notice n = Assert.Single(library.Read().Notices);
        Assert.Equal((NoticeAnswer.Open, What), (n.Answer, n.What));
    }

    [Fact]
    public void An_answer_needs_a_reason_and_keeps_name_and_time()
    {
        using ShelfLibrary library = Given();
        Noting accept = new("clip", Happening.Answered) { Answer = NoticeAnswer.Accepted };
        Assert.Equal("notice-reason", Assert.Single(library.Note(accept)).Code);
        Assert.Empty(library.Note(accept, "opened the hole by hand"));
        Notice n = Assert.Single(library.Read().Notices);
        Assert.Equal((NoticeAnswer.Accepted, "Ada", "opened the hole by hand"), (n.Answer, n.By, n.Reason));
        Give(library);
        Assert.Single(library.Read().Notices);
        Assert.Equal("notice-none", Assert.Single(library.Note(accept, "again")).Code);
    }

    [Fact]
    public void Throwing_the_last_block_away_answers_and_undoing_that_brings_the_notice_back()
    {
        using ShelfLibrary library = Given();
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut) { Spare = true }));
        Assert.Empty(library.Note(new Noting("clip", Happening.Scrapped)));
        Assert.Equal(NoticeAnswer.Open, library.Read().Notices[0].Answer);
        Assert.Empty(library.Note(new Noting("clip", Happening.Scrapped)));
        Assert.Equal(NoticeAnswer.Scrapped, library.Read().Notices[0].Answer);
        Assert.Empty(library.Change(r => Undo.Last(r, library.Jobs, ShelfLibrary.At(3))));
        Register back = library.Read();
        Assert.Equal(NoticeAnswer.Open, back.Notices[0].Answer);
        Assert.Equal([FixtureState.Scrapped, FixtureState.Cut], back.Blocks.Select(b => b.State));
    }

    [Fact]
    public void Undoing_an_answer_opens_the_notice_again()
    {
        using ShelfLibrary library = Given();
        Assert.Empty(library.Note(new("clip", Happening.Answered) { Answer = NoticeAnswer.Recut }, "next week"));
        Assert.Empty(library.Change(r => Undo.Last(r, library.Jobs, ShelfLibrary.At(3))));
        Assert.Equal(NoticeAnswer.Open, library.Read().Notices[0].Answer);
    }

    /// <summary>Both revisions have a block on the shelf; the second is the current one and fits.</summary>
    [Fact]
    public void A_newer_revision_does_not_hide_an_older_block()
    {
        using ShelfLibrary library = Given();
        library.Make("clip", 2, 1020);
        JobChange unchanged = Row("clip", 2) with { Misfits = [new Misfit(1, "its port meets no port of the plate")] };
        Assert.Empty(library.Change(r => Stage.Answer(Settlement.Settle(r, [unchanged], ShelfLibrary.At(4)))));
        Assert.Equal([1, 1], library.Read().Notices.Select(n => n.Revision));
        Assert.Equal([FixtureState.Cut, FixtureState.Planned], library.Read().Fixtures.Select(f => f.State));
    }

    [Fact]
    public void What_was_worn_or_scrapped_can_be_cut_again_and_a_good_one_only_as_a_spare()
    {
        using ShelfLibrary library = Given();
        Finding twice = Assert.Single(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Contains("--spare clip", twice.Remedy, StringComparison.Ordinal);
        Assert.Empty(library.Note(new Noting("clip", Happening.Worn)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Scrapped)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Scrapped)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut) { Spare = true }));
        Assert.Equal([1, 2, 3, 4], library.Read().Blocks.Select(b => b.Number));
        Assert.Equal(
            "register-which-block",
            Assert.Single(library.Note(new Noting("clip", Happening.Cycles) { Amount = 5 })).Code
        );
        Assert.Empty(library.Note(new Noting("clip", Happening.Cycles) { Amount = 5, Block = 4 }));
        Assert.Equal(5, library.Read().Blocks.Single(b => b.Number == 4).Cycles);
    }

    [Fact]
    public void A_block_noted_as_cut_by_mistake_is_taken_back_until_it_has_led_to_a_next_revision()
    {
        using ShelfLibrary library = new();
        library.Make("clip", 1, 1010);
        Assert.Equal("undo-refused", Assert.Single(Undone(library)).Code);
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Empty(Undone(library));
        Assert.Equal(FixtureState.Planned, library.Read().Current("clip")!.State);
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Assert.Equal(2, library.Read().Blocks.Single().Number);
        library.Make("clip", 2, 1020);
        Finding late = Assert.Single(Undone(library));
        Assert.Contains("revision 2 was made because of it", late.Message, StringComparison.Ordinal);
    }

    private static IReadOnlyList<Finding> Undone(ShelfLibrary library) =>
        library.Change(r => Undo.Last(r, library.Jobs, ShelfLibrary.At(3)));

    private static ShelfLibrary Given()
    {
        ShelfLibrary library = new();
        library.Make("clip", 1, 1010);
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Give(library);
        return library;
    }

    private static void Give(ShelfLibrary library) =>
        Assert.Empty(
            library.Change(r =>
                Stage.Answer(NoticeEvents.Give(r, r.RevisionsOf("clip").First(), What, ShelfLibrary.At(2)))
            )
        );

    private static JobChange Row(string job, int revision) =>
        new()
        {
            Job = job,
            JobFile = job + ".toml",
            Result = JobResult.Refused,
            Why = "",
            Revision = revision,
            Trim = 1,
            Program = 1020,
            FixtureId = "F1020",
            Plate = "master",
            PlateRevision = 1,
            Before = null,
            After = null,
            Moved = [],
            Reload = [],
            Misfits = [],
            Findings = [],
            PictureBefore = null,
            PictureAfter = null,
        };
}
