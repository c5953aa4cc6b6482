namespace FixtureGen.Verify.Tests.Damage;

/// <summary>What a slip of the hand does to a program; one edit each.</summary>
internal enum DamageKind
{
    DigitChanged,
    SignFlipped,
    LineDropped,
    LineDoubled,
    LinesSwapped,
    ArcTurned,
    RapidForFeed,
    ModeWordDropped,
    ToolSwapped,
    FeedTimesTen,
    HeightShifted,
    OffsetChanged,
    CommentOpened,
    PointLost,
    CentreMoved,
    RetractRemoved,
    TextCutOff,
}

/// <summary>An edited program: the line (1-based, of the edited text) where the edit is, and what was done.</summary>
internal sealed record Edit(DamageKind Kind, string Text, int Line, string What);
