namespace FixtureGen.Tests.Output;

/// <summary>Leaves a picture for a person to look at, when FIXTUREGEN_LOOK names a folder.</summary>
internal static class Looked
{
    private static readonly string? Folder = Environment.GetEnvironmentVariable("FIXTUREGEN_LOOK");

    public static bool Wanted => !string.IsNullOrEmpty(Folder);

    public static void At(string name, byte[] bytes)
    {
        if (Wanted)
        {
            Directory.CreateDirectory(Folder!);
            File.WriteAllBytes(Path.Combine(Folder!, name), bytes);
        }
    }
}
