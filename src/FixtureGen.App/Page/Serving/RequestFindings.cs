using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Serving;

/// <summary>What is wrong with the text of a request to the page, at the member that is wrong.</summary>
internal static partial class RequestFindings
{
    /// <summary>It is no JSON, or a member is unknown, missing, repeated or of another type.</summary>
    public static Finding NotUnderstood(JsonException e)
    {
        string member = (e.Path ?? "$").TrimStart('$').TrimStart('.');
        // The reader's own words; where in the bytes it stood helps nobody, and a type's namespace neither.
        string why = Namespace().Replace(e.Message.Split(" Path: ")[0], "");
        return new(
            "request-not-understood",
            Severity.Error,
            member.Length > 0 ? member : "request",
            why,
            "reload the page; a program of your own sends the members that the page sends"
        );
    }

    /// <summary>The request is the word null.</summary>
    public static Finding Nothing() =>
        new(
            "request-not-understood",
            Severity.Error,
            "request",
            "it is null",
            "send an object with the question's members"
        );

    /// <summary>More of something than a question may have.</summary>
    public static Finding TooMany(string member, int count, int most) =>
        OutOfRange(
            member,
            string.Create(CultureInfo.InvariantCulture, $"{count} are too many"),
            string.Create(CultureInfo.InvariantCulture, $"send {most} at most")
        );

    /// <summary>A point that no plate reaches.</summary>
    public static Finding FarAway(string member, double x, double y, double reach) =>
        OutOfRange(
            member,
            string.Create(CultureInfo.InvariantCulture, $"X {x:0.###} Y {y:0.###} mm is nowhere near the plate"),
            string.Create(CultureInfo.InvariantCulture, $"keep both within {reach:0} mm of the plate's zero")
        );

    /// <summary>A figure beyond its field's ends, in the field's unit.</summary>
    public static Finding Beyond(string member, double value, double min, double max) =>
        OutOfRange(
            member,
            string.Create(CultureInfo.InvariantCulture, $"{value} is not from {min} to {max}"),
            "give a figure within the field's range"
        );

    /// <summary>A word that is none of the field's choices.</summary>
    public static Finding NotAChoice(string member, string word, IEnumerable<string> choices) =>
        OutOfRange(member, $"'{word}' is none of the choices", "choose one of: " + string.Join(", ", choices));

    /// <summary>Text that no line of a file can hold.</summary>
    public static Finding Unwritable(string member) =>
        OutOfRange(
            member,
            "it is longer than a line of a job or has signs that no line has",
            "write it in one short line"
        );

    /// <summary>What is no number of a program's line.</summary>
    public static Finding NotALine(string said) =>
        OutOfRange("line", $"'{said}' is no number of a line", "give a whole number from 0 up");

    /// <summary>Null in a list of words.</summary>
    public static Finding Empty(string member) => OutOfRange(member, "null is no word", "leave it out");

    /// <summary>A list that names nothing.</summary>
    public static Finding NoneNamed(string member) => OutOfRange(member, "it names nothing", "name one at least");

    /// <summary>Before a type's name.</summary>
    [GeneratedRegex(@"\bFixtureGen(\.\w+)*\.")]
    private static partial Regex Namespace();

    private static Finding OutOfRange(string member, string message, string remedy) =>
        new("request-out-of-range", Severity.Error, member, message, remedy);
}
