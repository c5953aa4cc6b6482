namespace FixtureGen.Model;

/// <summary>
/// Numbers for files that are to be the same on every system. Sine, arc tangent and their kin differ in a number's last
/// binary digits between one system's library and another's; plain arithmetic does not (IEEE 754).
/// </summary>
public static class TrueDigits
{
    /// <summary>
    /// The number to at most 12 decimals, never minus zero. Rounded a thousand times finer first: what stands half way
    /// between two results, as many an inch fraction does, goes the same way whatever its last binary digits are.
    /// </summary>
    public static double Round(double value, int decimals) =>
        Math.Round(Math.Round(value, decimals + 3), decimals) + 0.0;
}
