using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>Whether the vacuum gets where the plate says: ports inside the seal, and every groove cut into its port or a groove that is.</summary>
internal static class PlateVacuum
{
    /// <summary>Lines that come as near as this, mm, cross.</summary>
    private const double Near = 1e-6;

    public static void Check(TableReader t, Plate plate)
    {
        foreach (PlateOpening port in plate.Ports.Where(p => !Inside.Contains(plate.SealLoop, p.At)))
        {
            t.Contradict(
                "seal",
                FormattableString.Invariant(
                    $"Port '{port.Name}' at ({port.At.X:0.###}, {port.At.Y:0.###}) mm lies {Measure.Distance(port.At, plate.SealLoop):0.###} mm outside the plate's seal: it would draw air."
                ),
                "Move the port, or the seal's corners."
            );
        }
        HashSet<int> fed = Fed(plate);
        for (int i = 0; i < plate.Grooves.Length; i++)
        {
            PlateGroove g = plate.Grooves[i];
            if (plate.Ports.All(p => p.Name != g.Port))
            {
                string? near = Nearest.Find(g.Port, plate.Ports.Select(p => p.Name));
                t.Contradict(
                    "groove",
                    $"A [[groove]] leads to port '{g.Port}', which is not there.",
                    near is null ? "Name one of the plate's ports." : $"Did you mean '{near}'?",
                    i
                );
            }
            else if (!fed.Contains(i))
            {
                t.Contradict(
                    "groove",
                    FormattableString.Invariant(
                        $"This [[groove]] does not reach port '{g.Port}': its edge ends {Short(plate, g):0.###} mm before the port's."
                    ),
                    "Lead it to the port or into a groove that the port feeds, or move the port.",
                    i
                );
            }
        }
    }

    /// <summary>The grooves that open into their port, or into one of the same port that does.</summary>
    private static HashSet<int> Fed(Plate plate)
    {
        HashSet<int> fed = [];
        bool more = true;
        while (more)
        {
            more = false;
            for (int i = 0; i < plate.Grooves.Length; i++)
            {
                PlateGroove g = plate.Grooves[i];
                bool opens =
                    Short(plate, g) <= 0
                    || fed.Any(k =>
                        plate.Grooves[k] is var o && o.Port == g.Port && Gap(g, o) <= (g.Width + o.Width) / 2
                    );
                more |= opens && fed.Add(i);
            }
        }
        return fed;
    }

    /// <summary>From the groove's edge to that of its port, mm; not above 0 where they meet, infinite where there is no such port.</summary>
    private static double Short(Plate plate, PlateGroove g) =>
        plate
            .Ports.Where(p => p.Name == g.Port)
            .Select(p => Measure.Distance(p.At, g.Run) - ((Math.Max(p.Diameter, p.ReliefDiameter) + g.Width) / 2))
            .DefaultIfEmpty(double.PositiveInfinity)
            .Min();

    /// <summary>Between two centre lines, mm. Straight pieces that do not cross are nearest at an end.</summary>
    private static double Gap(PlateGroove a, PlateGroove b) =>
        a.Run.Segments.Any(s => b.Run.Segments.Any(o => Intersections.Find(s, o, Near).Length > 0))
            ? 0
            : Math.Min(FromEnds(a, b), FromEnds(b, a));

    private static double FromEnds(PlateGroove a, PlateGroove b) =>
        a.Run.Segments.Min(s => Math.Min(Measure.Distance(s.Start, b.Run), Measure.Distance(s.End, b.Run)));
}
