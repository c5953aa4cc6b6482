namespace FixtureGen.Tests.Output;

/// <summary>Leaves a picture for a person to look at, when FIXTUREGEN_LOOK names a folder.</summary>
internal static class Looked
{
    public static void At(string name, byte[] bytes)
    {
        if (Environment.GetEnvironmentVariable("FIXTUREGEN_LOOK") is { Length: > 0 } folder)
        {
            Directory.CreateDirectory(folder);
            File.WriteAllBytes(Path.Combine(folder, name), bytes);
        }
    }
}
