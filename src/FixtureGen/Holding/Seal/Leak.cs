namespace FixtureGen.Holding.Seal;

/// <summary>
/// Air that leaks into the zone through a hole, against what the pump can move. Isentropic flow of an ideal gas through an
/// orifice (textbook gas dynamics; air: gamma 1.4, R 287.05 J/(kg K)), choked where the pressure ratio is at most 0.5283.
/// </summary>
public static class Leak
{
    /// <summary>A sharp-edged hole's discharge coefficient; 0.8 +- 0.15 is common practice, no source.</summary>
    public const double Discharge = 0.8;

    /// <summary>Room temperature for the leak, K.</summary>
    public const double RoomK = 293.15;

    private const double Gamma = 1.4;
    private const double GasConstant = 287.05;

    /// <summary>
    /// Mass flow through a hole, g/s. Diameter mm, pressures kPa absolute, discharge coefficient (1 for an ideal nozzle), room
    /// temperature K; 0 where the inside has the outside's pressure or more.
    /// </summary>
    public static double MassFlowGPerS(
        double diameter,
        double outsideKPa,
        double insideKPa,
        double discharge,
        double roomK
    )
    {
        double area = Math.PI * diameter * diameter / 4 * 1e-6;
        double ratio = Math.Clamp(insideKPa / outsideKPa, 0, 1);
        double choked = Math.Pow(2 / (Gamma + 1), Gamma / (Gamma - 1));
        double x = Math.Max(ratio, choked);
        double flux = Math.Sqrt(2 * Gamma / (Gamma - 1) * (Math.Pow(x, 2 / Gamma) - Math.Pow(x, (Gamma + 1) / Gamma)));
        return discharge * area * outsideKPa * 1000 / Math.Sqrt(GasConstant * roomK) * flux * 1000;
    }

    /// <summary>Free air for a mass flow in g/s, L/min: its volume at the room's pressure (kPa absolute) and temperature (K).</summary>
    public static double FreeAirLPerMin(double gramsPerSecond, double roomKPa, double roomK) =>
        gramsPerSecond / 1000 / (roomKPa * 1000 / (GasConstant * roomK)) * 60_000;

    /// <summary>
    /// The vacuum (gauge, kPa) at which a pump keeps up with a leak through one hole, found by halving; atmosphere kPa absolute.
    /// The pump's free air is taken to fall linearly from its rated flow at no vacuum to nothing at its blank-off level, the
    /// usual shape of a displacement pump's curve. Without a hole or a flow (0 or less) it is the blank-off level: no leak is
    /// counted.
    /// </summary>
    public static double SettledKPa(double blankOffKPa, double flowLPerMin, double holeMm, double atmosphereKPa)
    {
        if (holeMm <= 0 || flowLPerMin <= 0)
        {
            return blankOffKPa;
        }
        double low = 0;
        double high = blankOffKPa;
        for (int i = 0; i < 60; i++)
        {
            double level = (low + high) / 2;
            double pumped = flowLPerMin * (1 - (level / blankOffKPa));
            double leaked = FreeAirLPerMin(
                MassFlowGPerS(holeMm, atmosphereKPa, atmosphereKPa - level, Discharge, RoomK),
                atmosphereKPa,
                RoomK
            );
            (low, high) = pumped > leaked ? (level, high) : (low, level);
        }
        return (low + high) / 2;
    }
}
