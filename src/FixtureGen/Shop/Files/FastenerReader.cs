using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>templates/fasteners/*.toml: a file says <c>kind = "screw"</c> or <c>"pin"</c>.</summary>
public static class FastenerReader
{
    /// <summary>Proof stress of class 12.9, N/mm2 (ISO 898-1, from memory).</summary>
    private const double ProofStress = 970;

    /// <summary>Preload as a share of proof for joints that are opened again (machine design handbooks, from memory).</summary>
    private const double PreloadShare = 0.75;

    private static readonly (string, Kind)[] Kinds = [("screw", Kind.Screw), ("pin", Kind.Pin)];

    private enum Kind
    {
        Screw,
        Pin,
    }

    /// <summary>A screw, mm and N.m, or every mistake with line and column; a pin's file is one.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Screw> ReadScrew(string text, string file, string name) =>
        ShopFile.Read(text, file, t => IsA(t, Kind.Screw) ? Screw(t, name) : null!);

    /// <summary>A pin, mm, or every mistake with line and column; a screw's file is one.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<DowelPin> ReadPin(string text, string file, string name) =>
        ShopFile.Read(text, file, t => IsA(t, Kind.Pin) ? Pin(t, name) : null!);

    /// <summary>Either, as the file itself says: for a form that shows every fastener of the shop.</summary>
    internal static object Body(TableReader t, string name) =>
        t.Choice("kind", Kinds) == Kind.Screw ? Screw(t, name) : Pin(t, name);

    private static bool IsA(TableReader t, Kind wanted)
    {
        Kind kind = t.Choice("kind", Kinds);
        if (kind == wanted || t.Log.Failed)
        {
            return true;
        }
        t.Contradict(
            "kind",
            $"This file describes a {kind}, the job needs a {wanted} here.",
            "Name a fastener file of the other kind in the job."
        );
        return false;
    }

    private static Screw Screw(TableReader t, string name)
    {
        Screw screw = new()
        {
            Name = name,
            Body = t.Length("body", 1, 30),
            Pitch = t.Length("pitch", 0.1, 5),
            HeadDiameter = t.Length("head_diameter", 1, 60),
            HeadHeight = t.Length("head_height", 0.5, 40),
            KeyEngagement = t.Length("key_engagement", 0.2, 30),
            WasherDiameter = t.LengthOr("washer_diameter", 0, 0, 80),
            WasherThickness = t.LengthOr("washer_thickness", 0, 0, 10),
            ClearanceHole = t.Length("clearance_hole", 1, 40),
            Counterbore = t.Length("counterbore", 1, 80),
            TorqueNm = t.Measure("torque", Quantity.Torque, 0.1, 200),
            NutFactor = t.WithinOrNull(ToolRanges.NutFactor) ?? 0.2,
            StressArea = t.Measure("stress_area", Quantity.Area, 0.5, 800),
            Source = t.Text("source"),
            Description = t.TextOrNull("description") ?? "",
        };
        if (screw.ClearanceHole <= screw.Body)
        {
            t.Contradict(
                "clearance_hole",
                FormattableString.Invariant(
                    $"A hole of {screw.ClearanceHole:0.###} mm does not clear the body of {screw.Body:0.###} mm."
                ),
                "Use the published clearance hole."
            );
        }
        if (screw.Counterbore <= Math.Max(screw.HeadDiameter, screw.WasherDiameter))
        {
            t.Contradict(
                "counterbore",
                FormattableString.Invariant(
                    $"A counterbore of {screw.Counterbore:0.###} mm does not take the {(screw.WasherDiameter > screw.HeadDiameter ? "washer" : "head")} of {Math.Max(screw.HeadDiameter, screw.WasherDiameter):0.###} mm."
                ),
                "Make it wider than that."
            );
        }
        if (screw.KeyEngagement >= screw.HeadHeight)
        {
            t.Contradict(
                "key_engagement",
                FormattableString.Invariant(
                    $"A hexagon {screw.KeyEngagement:0.###} mm deep goes through the head of {screw.HeadHeight:0.###} mm."
                ),
                "Give the least depth of the hexagon: about half the head (ASME B18.3, ISO 4762)."
            );
        }
        Strain(t, screw);
        return screw;
    }

    // T = K F d; the strongest class that shops buy must bear it with a quarter to spare.
    private static void Strain(TableReader t, Screw screw)
    {
        double pull = screw.TorqueNm * 1000 / (screw.NutFactor * screw.Body);
        double stress = pull / screw.StressArea;
        if (!t.Log.Failed && stress > PreloadShare * ProofStress)
        {
            t.Contradict(
                "torque",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{screw.TorqueNm:0.##} N.m pulls the screw with {pull:0} N, {stress:0} N/mm2 in its thread; {PreloadShare * ProofStress:0} is what the strongest class bears in use."
                ),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Give at most {PreloadShare * ProofStress * screw.StressArea * screw.NutFactor * screw.Body / 1000:0.#} N.m, far less over plastic; or mend 'stress_area'."
                )
            );
        }
    }

    private static DowelPin Pin(TableReader t, string name)
    {
        DowelPin pin = new()
        {
            Name = name,
            Diameter = t.Length("diameter", 1, 25),
            Projection = t.Length("projection", 1, 60),
            SlipHole = t.Length("slip_hole", 1, 26),
            BushDiameter = t.LengthOr("bush_diameter", 0, 0, 40),
            BushLength = t.LengthOr("bush_length", 0, 0, 60),
            Source = t.Text("source"),
            Description = t.TextOrNull("description") ?? "",
        };
        if (pin.SlipHole <= pin.Diameter)
        {
            t.Contradict(
                "slip_hole",
                FormattableString.Invariant(
                    $"A hole of {pin.SlipHole:0.####} mm is no larger than the pin of {pin.Diameter:0.####} mm: not a slip fit."
                ),
                "Use pin + 0.005 to 0.025 mm."
            );
        }
        if (pin.BushDiameter > 0 && pin.BushDiameter <= pin.SlipHole)
        {
            t.Contradict(
                "bush_diameter",
                FormattableString.Invariant(
                    $"A bush of {pin.BushDiameter:0.###} mm is no wider than its own bore of {pin.SlipHole:0.###} mm."
                ),
                "Give the bush's outside, or 0."
            );
        }
        return pin;
    }
}
