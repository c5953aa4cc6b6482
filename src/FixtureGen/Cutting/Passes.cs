namespace FixtureGen.Cutting;

/// <summary>Heights of the passes from a top to a floor: equal steps no deeper than the step-down, the last exactly the floor.</summary>
internal static class Passes
{
    public static IEnumerable<double> Down(double topZ, double floorZ, double stepDown)
    {
        int count = Count(topZ - floorZ, stepDown);
        for (int k = 1; k < count; k++)
        {
            yield return topZ + ((floorZ - topZ) * k / count);
        }
        yield return floorZ;
    }

    public static int Count(double depth, double stepDown) => Math.Max(1, (int)Math.Ceiling((depth / stepDown) - 1e-6));
}
