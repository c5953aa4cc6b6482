using System.Collections.Immutable;

namespace FixtureGen.Verify.Reading;

/// <summary>One letter with its number as it stands in the text. HasPoint says whether a decimal point was written.</summary>
internal readonly record struct Word(char Letter, double Value, string Text, bool HasPoint)
{
    /// <summary>G and M codes in tenths (G38.2 is 382), so that they compare as integers.</summary>
    public int Tenths => (int)Math.Round(Value * 10);
}

/// <summary>One line of a program taken apart; nothing is interpreted yet. Line is 1-based.</summary>
internal sealed record Block(
    int Line,
    string Source,
    bool IsPercent,
    int? ProgramNumber,
    ImmutableArray<Word> Words,
    ImmutableArray<string> Comments
)
{
    public bool IsBlank => !IsPercent && ProgramNumber is null && Words.IsEmpty;

    public bool Has(char letter) => Words.Any(w => w.Letter == letter);

    /// <summary>The value of the letter, or null where it does not stand in the line.</summary>
    public double? Value(char letter)
    {
        foreach (Word word in Words)
        {
            if (word.Letter == letter)
            {
                return word.Value;
            }
        }
        return null;
    }
}
