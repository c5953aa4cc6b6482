using System.Collections.Frozen;
using System.Text.RegularExpressions;
using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// What a control file adds to RS274/NGC: words that it declares, as the judge reads them. M codes are integers; a code that
/// the file does not name is null. PathTolerance is the P of its own G64, null where it says none.
/// </summary>
internal sealed partial record Dialect(
    Control Control,
    int? VacuumOn,
    int? VacuumOff,
    int? VacuumWait,
    FrozenSet<int> DeclaredM,
    FrozenSet<int> DeclaredG,
    FrozenSet<int> SafeStartG,
    double? PathTolerance
)
{
    public static Dialect From(Control control)
    {
        string[] single =
        [
            control.SpindleStart,
            control.SpindleStop,
            control.AirOn,
            control.AirOff,
            control.VacuumOn,
            control.VacuumOff,
            control.VacuumWait,
            control.Stop,
            control.OptionalStop,
            control.End,
            control.WorkOffset,
        ];
        string[] all = [.. single, .. control.SafeStart, .. control.ToolChange, .. control.Home];
        string start = string.Join(' ', control.SafeStart);
        return new Dialect(
            control,
            CodeOf(control.VacuumOn),
            CodeOf(control.VacuumOff),
            CodeOf(control.VacuumWait),
            all.SelectMany(t => Codes(t, 'M')).Select(tenths => tenths / 10).ToFrozenSet(),
            all.SelectMany(t => Codes(t, 'G')).ToFrozenSet(),
            Codes(start, 'G').Where(IsModalPreamble).ToFrozenSet(),
            PathPattern().Match(string.Join(' ', all)) is { Success: true } path
                ? double.Parse(path.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture)
                : null
        );
    }

    /// <summary>Words of the safe start that set a state: planes, units, offsets, distance; not moves.</summary>
    private static bool IsModalPreamble(int tenths) => tenths is not (0 or 10 or 20 or 30 or 40 or 280 or 300 or 530);

    private static int? CodeOf(string text)
    {
        int[] codes = [.. Codes(text, 'M')];
        return codes.Length == 1 ? codes[0] / 10 : null;
    }

    private static IEnumerable<int> Codes(string text, char letter)
    {
        foreach (Match match in WordPattern().Matches(text))
        {
            if (char.ToUpperInvariant(match.Value[0]) == letter)
            {
                string number = match.Groups[1].Value;
                yield return (int)
                    Math.Round(10 * double.Parse(number, System.Globalization.CultureInfo.InvariantCulture));
            }
        }
    }

    [GeneratedRegex(@"[Gg]64\s*[Pp](\d*\.?\d+)")]
    private static partial Regex PathPattern();

    [GeneratedRegex(@"[GMgm]\s*(\d+(?:\.\d+)?)")]
    private static partial Regex WordPattern();
}
