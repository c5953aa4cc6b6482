using FixtureGen.App.Records;

namespace FixtureGen.App.Files;

/// <summary>Takes over a register of the time before the database, once: it lists revisions and knows no blocks, files or past.</summary>
internal static class TakeOver
{
    /// <summary>The same with a block for each revision that was cut; the past begins with what is known of them.</summary>
    public static Register Past(Register register, Occasion occasion)
    {
        Occasion here = occasion with { Why = "taken over" };
        Register past = register.Noted(here, Happening.TakenOver, why: Register.FileName);
        foreach (Fixture f in register.Fixtures.Where(f => f.State != FixtureState.Planned))
        {
            past = past.Noted(here, Happening.Cut, f.Job, f.Revision, 1, f.Trim);
            if (f.State != FixtureState.Cut)
            {
                Happening since = f.State == FixtureState.Worn ? Happening.Worn : Happening.Scrapped;
                past = past.Noted(here, since, f.Job, f.Revision, 1);
            }
            past = past.With(BlockPast.Replay(past, f.Job, f.Revision, 1)!);
        }
        return past;
    }

    /// <summary>Keeps the old text beside the new; one that is kept already is left alone.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    public static void KeepCopy(string path)
    {
        string kept = Path.Combine(Path.GetDirectoryName(path)!, "library.before.toml");
        if (!File.Exists(kept))
        {
            OutputFolder.ReplaceFile(kept, File.ReadAllBytes(path));
        }
    }
}
