using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>What can be wrong when a plan is written for a control.</summary>
internal static class ProgramFindings
{
    public static Finding NumberOutOfRange(string file, int number, Control c) =>
        new(
            "program-number-range",
            Severity.Error,
            file,
            Inv(
                $"Program number {number} is outside {c.ProgramNumberMin} to {c.ProgramNumberMax} of control '{c.Name}'."
            ),
            "Give the job a program number in that range."
        );

    public static Finding LineTooLong(string file, int line, int length, Control c) =>
        new(
            "program-line-too-long",
            Severity.Error,
            file,
            Inv($"Line {line} has {length} characters; control '{c.Name}' reads {c.LineLength}."),
            "Raise line_length of the control if it reads more, or use fewer decimals."
        )
        {
            Line = line,
        };

    /// <param name="limitMm">What the published rule allows in the control's unit, mm.</param>
    public static Finding ArcRounding(string file, int line, Point2 at, double mismatchMm, double limitMm, Control c)
    {
        int more = (int)Math.Ceiling(Math.Log10(mismatchMm / limitMm));
        return new(
            "program-arc-rounding",
            Severity.Error,
            file,
            Inv(
                $"The arc near ({at.X:0.###}, {at.Y:0.###}) mm has radii that differ by {mismatchMm:0.#####} mm after rounding; RS274/NGC allows {limitMm:0.#####} mm."
            ),
            Inv($"Give control '{c.Name}' decimals = {c.Decimals + more}.")
        )
        {
            Line = line,
            At = at,
        };
    }

    public static Finding LettersLost(string file, string text) =>
        new(
            "program-comment-letters",
            Severity.Warning,
            file,
            $"\"{text}\" has letters that a program cannot hold; they are written as '?'.",
            "Use Latin letters in title, fixture id and names."
        );

    public static Finding More(Finding like, int count) =>
        new(like.Code, like.Severity, like.Where, Inv($"and {count} more of the same"), like.Remedy);

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
