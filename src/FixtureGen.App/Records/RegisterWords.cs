using System.Collections.Immutable;

namespace FixtureGen.App.Records;

/// <summary>The register's words for its kinds, and back.</summary>
internal static class RegisterWords
{
    /// <summary>Of a state, in the order of a block's life.</summary>
    public static ImmutableArray<string> States { get; } = [.. Enum.GetValues<FixtureState>().Select(For)];

    /// <summary>Of an answer.</summary>
    public static ImmutableArray<string> Answers { get; } = [.. Enum.GetValues<NoticeAnswer>().Select(For)];

    /// <summary>Of what happened.</summary>
    public static ImmutableArray<string> Happenings { get; } = [.. Enum.GetValues<Happening>().Select(For)];

    /// <summary>planned, cut, worn or scrapped.</summary>
    public static string For(FixtureState state) =>
        state switch
        {
            FixtureState.Planned => "planned",
            FixtureState.Cut => "cut",
            FixtureState.Worn => "worn",
            FixtureState.Scrapped => "scrapped",
        };

    /// <summary>open, recut, accepted or scrapped.</summary>
    public static string For(NoticeAnswer answer) =>
        answer switch
        {
            NoticeAnswer.Open => "open",
            NoticeAnswer.Recut => "recut",
            NoticeAnswer.Accepted => "accepted",
            NoticeAnswer.Scrapped => "scrapped",
        };

    /// <summary>One word each.</summary>
    public static string For(Happening what) =>
        what switch
        {
            Happening.Numbered => "numbered",
            Happening.Made => "made",
            Happening.Retrimmed => "retrimmed",
            Happening.Replaced => "replaced",
            Happening.Cut => "cut",
            Happening.Worn => "worn",
            Happening.Scrapped => "scrapped",
            Happening.Cycles => "cycles",
            Happening.Cord => "cord",
            Happening.Leak => "leak",
            Happening.Noticed => "noticed",
            Happening.Answered => "answered",
            Happening.Undone => "undone",
            Happening.Retired => "retired",
            Happening.TakenOver => "taken-over",
        };

    /// <summary>Of one of <see cref="States"/>.</summary>
    public static FixtureState State(string word) => (FixtureState)States.IndexOf(word);

    /// <summary>Of one of <see cref="Answers"/>.</summary>
    public static NoticeAnswer Answer(string word) => (NoticeAnswer)Answers.IndexOf(word);

    /// <summary>Of one of <see cref="Happenings"/>.</summary>
    public static Happening What(string word) => (Happening)Happenings.IndexOf(word);
}
