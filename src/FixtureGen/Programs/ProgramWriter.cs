using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>
/// A plan to the text that one control reads. Every word comes from the control's data or from RS274/NGC (NISTIR 6556);
/// no control is a class.
/// </summary>
public static class ProgramWriter
{
    /// <summary>The finished text, or a finding where the plan does not fit the control.</summary>
    public static Stage<ProgramText> Write(ProgramPlan plan, Control control, Job job)
    {
        string setup = plan.Setup switch
        {
            Setup.Underside => "underside",
            Setup.Top => "top",
            Setup.Trim => "trim",
        };
        string file = $"{job.Name}.{setup}.nc";
        if (plan.ProgramNumber < control.ProgramNumberMin || plan.ProgramNumber > control.ProgramNumberMax)
        {
            return Stage.Failed<ProgramText>(ProgramFindings.NumberOutOfRange(file, plan.ProgramNumber, control));
        }
        BlockWriter blocks = new(control, file);
        new StepWriter(blocks, plan, control).All();
        ProgramText text = new(plan.Setup, plan.ProgramNumber, file, blocks.Finish());
        Finding[] findings = [.. Few(blocks.Findings).Select(f => f with { Where = file })];
        return Array.Exists(findings, f => f.Severity == Severity.Error)
            ? Stage.Failed<ProgramText>(findings)
            : Stage.Answer(text, findings);
    }

    /// <summary>The first few of each code; how many more there are stands in one line.</summary>
    private static IEnumerable<Finding> Few(List<Finding> findings)
    {
        const int Told = 3;
        foreach (IGrouping<string, Finding> code in findings.GroupBy(f => f.Code, StringComparer.Ordinal))
        {
            foreach (Finding finding in code.Take(Told))
            {
                yield return finding;
            }
            if (code.Count() > Told)
            {
                yield return ProgramFindings.More(code.First(), code.Count() - Told);
            }
        }
    }

    /// <summary>The program number as the control writes it, with leading zeros and without its word.</summary>
    public static string NumberText(int number, Control control) =>
        number.ToString(CultureInfo.InvariantCulture).PadLeft(control.ProgramNumberDigits, '0');
}
