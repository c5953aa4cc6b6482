using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// The [drawing] part of a fresh job: the unit where the drawing states none, and the roles that its layers, colours and line
/// types look like, as comments. Taking the # away decides; nothing else does.
/// </summary>
internal static class JobRoles
{
    private const int NoteColumn = 33;

    public static string AsComments(DrawingFacts facts)
    {
        StringBuilder text = new();
        string[] ignored = [.. facts.Layers.Where(l => l.Role == CurveRole.Ignore).Select(l => l.Name)];
        bool unit = facts.Unit is null;
        text.Append(unit ? "\n[drawing]\n" : "\n# [drawing]\n");
        if (unit)
        {
            string unitNow = facts.Answers.Unit.Length > 0 ? facts.Answers.Unit : Unanswered.Mark;
            text.Append(
                Line(
                    $"unit = \"{unitNow}\"",
                    $"the drawing states none: \"mm\" makes it {InMm(facts)}, \"in\" {InInches(facts)}"
                )
            );
        }
        text.Append(Line($"# join = \"{Tolerances.House.Join} mm\"", "widest gap that is closed; up to 0.5 mm"));
        text.Append(Line($"# invisible = false", "true: curves made invisible count too"));
        if (ignored.Length > 0)
        {
            text.Append(Line($"# ignore = {RoleSuggestion.Toml(ignored)}", "layers that look like no part"));
        }
        Table(text, "layers", facts.Layers, "which layer is what, as names and places suggest; check it");
        Table(text, "colours", facts.Colours, "or by colour");
        Table(text, "line_types", facts.LineTypes, "these are no edges unless you say so");
        return text.ToString();
    }

    private static string InMm(DrawingFacts facts) =>
        string.Create(CultureInfo.InvariantCulture, $"{facts.Width:0.#} x {facts.Height:0.#} mm");

    private static string InInches(DrawingFacts facts) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.Width * Units.MmPerInch:0.#} x {facts.Height * Units.MmPerInch:0.#} mm"
        );

    private static void Table(StringBuilder text, string name, ImmutableArray<SuggestedRole> roles, string note)
    {
        SuggestedRole[] shown =
        [
            .. roles.Where(r => r.Role != CurveRole.Ignore || name != "layers").OrderBy(r => r.Role),
        ];
        if (shown.Length == 0)
        {
            return;
        }
        text.Append('\n').Append(Line($"# [drawing.{name}]", note));
        foreach (IGrouping<CurveRole, SuggestedRole> role in shown.GroupBy(r => r.Role))
        {
            string[] names = [.. role.Select(r => r.Name)];
            text.Append(
                Line(
                    $"# {RoleSuggestion.Key(role.Key)} = {RoleSuggestion.Toml(names)}",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{role.Sum(r => r.Closed)} closed, {role.Sum(r => r.Open)} open"
                    )
                )
            );
        }
    }

    private static string Line(FormattableString line, string note) =>
        line.ToString(CultureInfo.InvariantCulture).PadRight(NoteColumn - 1) + " # " + note + "\n";
}
