using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using Xunit;

namespace FixtureGen.Tests.Published;

public sealed class VacuumTables
{
    // US Standard Atmosphere 1976 (= ISO 2533:1975 below 11 km), geometric altitude in m, pressure in Pa.
    [Theory]
    [InlineData(0, 101325.0)]
    [InlineData(500, 95461.3)]
    [InlineData(1000, 89876.3)]
    [InlineData(1500, 84559.7)]
    [InlineData(2000, 79501.4)]
    [InlineData(3000, 70121.2)]
    [InlineData(5280 * 0.3048, 83432)]
    [InlineData(7000 * 0.3048, 78192)]
    public void Standard_atmosphere(double altitudeM, double pascal) =>
        Assert.Equal(pascal, Atmosphere.PressureKPa(altitudeM) * 1000, 0.6);

    // Vacuum pump handbook's worked derating: a 24 inHg pump where the atmosphere is 22 inHg reaches 17.65.
    [Fact]
    public void Pump_derating_in_proportion_to_the_atmosphere()
    {
        double altitude = AltitudeWhere(22 * Units.KPaPerInHg);
        double level = Atmosphere.PumpLevelKPa(24 * Units.KPaPerInHg, altitude);
        Assert.Equal(17.65, level / Units.KPaPerInHg, 0.01);
    }

    // Force = pressure x area: sides in inches, vacuum in inHg, force in N; 10 x 10 in at 14.7 psi is 1470 lbf.
    [Theory]
    [InlineData(6, 4, 15, 786.5)]
    [InlineData(6, 4, 20, 1048.7)]
    [InlineData(6, 4, 25, 1310.9)]
    [InlineData(7.5, 7.5, 20, 2457.9)]
    [InlineData(9, 9, 25, 4424.1)]
    public void Force_on_a_sealed_rectangle(double width, double height, double inHg, double newton)
    {
        double area = width * height * Units.MmPerInch * Units.MmPerInch;
        Assert.Equal(newton, Atmosphere.ForceN(inHg * Units.KPaPerInHg, area), 0.06);
    }

    // Choked orifice of air, isentropic nozzle (any gas-dynamics text): 293.15 K, 101325 Pa, discharge 1; g/s and free L/min.
    [Theory]
    [InlineData(0.25, 0.01174, 0.585)]
    [InlineData(0.5, 0.04696, 2.34)]
    [InlineData(1.0, 0.18785, 9.36)]
    [InlineData(2.0, 0.75139, 37.44)]
    [InlineData(3.0, 1.69060, 84.24)]
    public void Choked_orifice(double diameter, double gramsPerSecond, double litresPerMin)
    {
        double flow = Leak.MassFlowGPerS(diameter, 101.325, 20, 1, 293.15);
        Assert.Equal(gramsPerSecond, flow, gramsPerSecond * 1e-3);
        Assert.Equal(litresPerMin, Leak.FreeAirLPerMin(flow, 101.325, 293.15), litresPerMin * 1e-3);
    }

    // The same table below choking, 1 mm hole, and at 288.15 K.
    [Theory]
    [InlineData(5, 7.16)]
    [InlineData(10, 8.96)]
    [InlineData(13, 9.33)]
    public void Unchoked_orifice(double inHg, double litresPerMin)
    {
        double flow = Leak.MassFlowGPerS(1, 101.325, 101.325 - (inHg * Units.KPaPerInHg), 1, 293.15);
        Assert.Equal(litresPerMin, Leak.FreeAirLPerMin(flow, 101.325, 293.15), 0.006);
    }

    [Fact]
    public void Choked_orifice_at_the_standard_temperature()
    {
        double flow = Leak.MassFlowGPerS(1, 101.325, 10, 1, 288.15);
        Assert.Equal(0.18947, flow, 2e-5);
        Assert.Equal(9.28, Leak.FreeAirLPerMin(flow, 101.325, 288.15), 0.005);
    }

    // A pump's straight line meets the choked orifice's level one: 85 (1 - 0.8 x 9.36 / 50) for a hole of 1 mm.
    [Fact]
    public void A_leak_settles_where_the_pump_keeps_up()
    {
        Assert.Equal(72.27, Leak.SettledKPa(85, 50, 1, 101.325), 0.01);
        Assert.Equal(85, Leak.SettledKPa(85, 50, 0, 101.325));
        Assert.Equal(85, Leak.SettledKPa(85, 0, 1, 101.325));
    }

    private static double AltitudeWhere(double kPa)
    {
        double low = 0;
        double high = 11_000;
        for (int i = 0; i < 80; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Atmosphere.PressureKPa(middle) > kPa ? (middle, high) : (low, middle);
        }
        return low;
    }
}
