using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Gives each drawn form the height that the job states: by layer; of several with the same layer, in the order they were drawn.</summary>
internal static class FormMatching
{
    public static ImmutableArray<FormRegion> Match(
        ImmutableArray<DrawnLoop> loops,
        ImmutableArray<FormSpec> stated,
        string file,
        List<Finding> findings
    )
    {
        var forms = ImmutableArray.CreateBuilder<FormRegion>();
        List<FormSpec> unused = [.. stated];
        foreach (DrawnLoop loop in loops)
        {
            List<FormSpec> specs = [.. stated.Where(f => RoleTable.Same(f.Layer, loop.Layer))];
            FormSpec? spec = specs.Count == 1 ? specs[0] : specs.Find(unused.Contains);
            if (spec is null)
            {
                findings.Add(PartFindings.FormUnstated(file, loop));
                continue;
            }
            unused.Remove(spec);
            forms.Add(
                new FormRegion(loop.Contour, spec.Direction, spec.Height, spec.DraftDeg)
                {
                    Top = spec.Top,
                    Plug = spec.Plug,
                    ThicknessMin = spec.ThicknessMin,
                }
            );
        }
        foreach (FormSpec spec in unused)
        {
            findings.Add(PartFindings.FormUndrawn(file, spec));
        }
        return forms.ToImmutable();
    }
}
