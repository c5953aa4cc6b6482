using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.App.Files;

/// <summary>The library's own range of program numbers: <c>templates/numbers.toml</c> with <c>first</c> and <c>last</c>.</summary>
internal static class NumbersFile
{
    private const string Name = "numbers.toml";
    private const long Greatest = 99999999;

    /// <summary>The range; the house's where there is no such file. Each key may be left out.</summary>
    public static Stage<NumberRange> Read(LibraryFolder library)
    {
        string path = Path.Combine(library.Templates, Name);
        if (!File.Exists(path))
        {
            return Stage.Answer(NumberRange.House);
        }
        try
        {
            return Read(SourceText.Read(path));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<NumberRange>(Wrong("", e.Message));
        }
    }

    private static Stage<NumberRange> Read(string text)
    {
        DocumentSyntax document = SyntaxParser.Parse(text);
        if (document.HasErrors)
        {
            return Stage.Failed<NumberRange>(document.Diagnostics.Select(d => Wrong(Place(d.Span.Start), d.Message)));
        }
        NumberRange range = NumberRange.House;
        List<Finding> wrong = [.. document.Tables.Select(t => Wrong(Place(t.Span.Start), $"unknown table '{t.Name}'"))];
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            string key = RegisterReader.Plain(pair.Key!.ToString());
            string place = Place(pair.Span.Start);
            if (pair.Value is not IntegerValueSyntax { Value: >= 0 and <= Greatest } number)
            {
                wrong.Add(Wrong(place, $"{key} must be a whole number from 0 to {Greatest}"));
                continue;
            }
            NumberRange? next =
                key == "first" ? range with { First = (int)number.Value }
                : key == "last" ? range with { Last = (int)number.Value }
                : null;
            if (next is null)
            {
                wrong.Add(Wrong(place, $"unknown key '{key}'; it knows first and last"));
            }
            range = next ?? range;
        }
        if (wrong.Count == 0 && range.Last < range.First + 2)
        {
            wrong.Add(Wrong("", "last must be at least first + 2: a job takes three in a row"));
        }
        return wrong.Count == 0 ? Stage.Answer(range) : Stage.Failed<NumberRange>(wrong);
    }

    private static string Place(TextPosition at) =>
        string.Create(CultureInfo.InvariantCulture, $":{at.Line + 1}:{at.Column + 1}");

    private static Finding Wrong(string place, string message) =>
        new(
            "numbers-unreadable",
            Severity.Error,
            $"templates/{Name}{place}",
            message,
            "write first = N and last = N, the ends of the program numbers that the library may give out"
        );
}
