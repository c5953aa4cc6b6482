using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.App.Records;

/// <summary>Program numbers that may be given out, both ends among them; a job takes three in a row.</summary>
internal sealed record NumberRange(int First, int Last)
{
    /// <summary>Where neither the library nor the control says anything else: four digits and more, so that a shop's own low numbers stay free.</summary>
    public static NumberRange House { get; } = new(1000, 99999999);
}

/// <summary>What a job asks of its number: Stated is the one that it fixes itself, null where the register gives one out of the range.</summary>
internal sealed record NumberWish(string Job, int? Stated, NumberRange Range)
{
    /// <summary>The number that a job's text states and the control that it names, each null where it does not; whatever else stands there is the job's reader's.</summary>
    public static (int? Stated, string? Control) Read(string jobText)
    {
        DocumentSyntax document = SyntaxParser.Parse(jobText);
        return (
            Value(document.KeyValues, "program") is IntegerValueSyntax { Value: >= 0 and <= int.MaxValue } number
                ? (int)number.Value
                : null,
            document
                .Tables.Where(t => t is TableSyntax && RegisterReader.Plain(t.Name!.ToString()) == "shop")
                .Select(t => Value(t.Items.OfType<KeyValueSyntax>(), "control"))
                .OfType<StringValueSyntax>()
                .FirstOrDefault()
                ?.Value
        );
    }

    private static ValueSyntax? Value(IEnumerable<KeyValueSyntax> pairs, string key) =>
        pairs.FirstOrDefault(p => RegisterReader.Plain(p.Key!.ToString()) == key)?.Value;
}
