using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>
/// How a plug is terraced: it follows its form at the running clearance, wall by draft or cap by its sphere, and its top edge is
/// chamfered so that the shell finds its way on. Each terrace lies within the shape over its whole height, so that what
/// stands is never larger. Plate frame, mm.
/// </summary>
internal sealed class PlugShape
{
    /// <summary>Of the lead-in at the top, by 45 degrees (common practice, no source).</summary>
    private const double Chamfer = 1;

    /// <summary>How far a terrace's edge goes in from the one below it, at most, where the wall is no flatter than a cap.</summary>
    private const double Inward = 0.15;

    private const double InwardOnCap = 0.5;
    private const double Tallest = 2;
    private const double Flattest = 0.05;

    /// <summary>A cap's plug ends in a flat of this share of its foot's radius.</summary>
    private const double FlatOfCap = 0.25;

    private readonly FormRegion _form;
    private readonly double _face;
    private readonly double _clearance;
    private readonly double? _sphere;

    public PlugShape(FormRegion form, double face, double clearance)
    {
        (_form, _face, _clearance) = (form, face, clearance);
        if (form.Top == FormTop.Cap && FormStrength.Radius(form) is { } a)
        {
            _sphere = ((a * a) + (form.Height * form.Height)) / (2 * form.Height);
            double flat = FlatOfCap * a;
            double inner = _sphere.Value - clearance;
            Top = face + form.Height - _sphere.Value + Math.Sqrt((inner * inner) - (flat * flat));
        }
        else
        {
            Top = face + form.Height - clearance;
        }
    }

    /// <summary>Z of its highest terrace.</summary>
    public double Top { get; }

    /// <summary>How far the plug's edge at a height lies inside the form's edge.</summary>
    public double Inset(double z)
    {
        if (_sphere is { } radius)
        {
            double foot = FormStrength.Radius(_form)!.Value;
            double inner = radius - _clearance;
            double up = z - (_face + _form.Height - radius);
            return foot - Math.Sqrt(Math.Max(0, (inner * inner) - (up * up)));
        }
        double draft = Math.Tan(_form.DraftDeg * Math.PI / 180);
        return _clearance + ((z - _face) * draft) + Math.Max(0, z - (Top - Chamfer));
    }

    /// <summary>Floor of every terrace, the lowest on the face, and the edge inset of what stands above it.</summary>
    public ImmutableArray<(double FloorZ, double Inset)> Terraces()
    {
        var terraces = ImmutableArray.CreateBuilder<(double, double)>();
        double most = _sphere is null ? Inward : InwardOnCap;
        double z = _face;
        while (z < Top - 1e-9)
        {
            double next = Math.Min(z + Tallest, Top);
            while (Inset(next) - Inset(z) > most + 1e-9 && next - z > Flattest)
            {
                next = Math.Max(z + Flattest, z + ((next - z) * 0.8));
            }
            terraces.Add((z, Inset(next)));
            z = next;
        }
        return terraces.ToImmutable();
    }
}
