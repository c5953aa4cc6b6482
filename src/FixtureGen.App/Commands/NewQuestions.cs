using FixtureGen.App.Terminal;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.App.Commands;

/// <summary>
/// What <c>new</c> asks, since only the shop knows it: on a terminal one question after another, with the shop's last answer offered;
/// what is not answered stays open in the job. Without a terminal nothing is asked.
/// </summary>
internal static class NewQuestions
{
    /// <summary>The answers given on the command line with those of the questions asked for the rest.</summary>
    public static JobAnswers Ask(
        JobAnswers given,
        JobAnswers last,
        bool unitMissing,
        IEnumerable<string> shells,
        Say say,
        TextReader? terminal
    )
    {
        if (terminal is null)
        {
            return given;
        }
        return new JobAnswers(
            Shell: Answer(given.Shell, $"Material of the shell ({string.Join(", ", shells)})", last.Shell),
            Thickness: Answer(
                given.Thickness,
                "Its thickness at the edge that is trimmed, as 1.5 or 1.5 mm",
                last.Thickness
            ),
            Slack: Answer(given.Slack, "How far it can be pushed about on the block, at the most, as 0.3", last.Slack),
            Locator: Answer(given.Locator, "What locates it: auto, pins, form or hand", last.Locator),
            Unit: unitMissing ? Answer(given.Unit, "Unit of the drawing: mm or in", "") : given.Unit
        )
        {
            SmallHoles = given.SmallHoles,
            CornerLeft = given.CornerLeft,
        };

        string Answer(string stated, string question, string suggestion) =>
            OneAnswer(stated, question, suggestion, say, terminal);
    }

    /// <summary>The answers with what the shop wants of edges that its cutters do not reach.</summary>
    public static JobAnswers AskOfEdges(DrawingFacts facts, Say say, TextReader? terminal)
    {
        JobAnswers given = facts.Answers;
        return terminal is null
            ? given
            : given with
            {
                SmallHoles = facts.Edges.AsksHoles
                    ? OneAnswer(
                        given.SmallHoles,
                        Capital(facts.Edges.HolesInWords()),
                        facts.Last.SmallHoles,
                        say,
                        terminal
                    )
                    : given.SmallHoles,
                CornerLeft = facts.Edges.AsksCorners
                    ? OneAnswer(
                        given.CornerLeft,
                        Capital(facts.Edges.CornersInWords()),
                        facts.Last.CornerLeft,
                        say,
                        terminal
                    )
                    : given.CornerLeft,
            };
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static string OneAnswer(string stated, string question, string suggestion, Say say, TextReader terminal)
    {
        if (stated.Length > 0)
        {
            return stated;
        }
        say.Error(suggestion.Length > 0 ? $"{question} [{suggestion}]:" : $"{question}:");
        string answer = terminal.ReadLine()?.Trim() ?? "";
        return answer.Length > 0 ? answer : suggestion;
    }
}
