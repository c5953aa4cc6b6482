using System.Globalization;

namespace FixtureGen.Tests.Support;

/// <summary>How much the random tests do: little by default, as much as the environment asks for in a long run.</summary>
public static class LongRun
{
    /// <summary>Cases of a property test; FIXTUREGEN_CASES asks for another number.</summary>
    public static int Cases(int otherwise) => Setting("FIXTUREGEN_CASES", otherwise);

    public static int Setting(string name, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out int n) ? n : otherwise;
}
