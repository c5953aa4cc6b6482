using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>Writes notes into a folder's register, all of them or none: what the command and the page do alike.</summary>
internal static class RegisterNotes
{
    /// <summary>How long another run may take to write before this one gives up.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>The register as it then is; failed where one of the notes is refused or the register cannot be used: then nothing was written.</summary>
    /// <param name="folder">Of the jobs.</param>
    /// <param name="notings">In the order they are carried out.</param>
    /// <param name="undo">Whether what was noted last is taken back, after the notes.</param>
    /// <param name="rebuild">copy or database: which is the truth where they differ; null where they should not.</param>
    /// <param name="occasion">When, by whom and why.</param>
    public static Stage<Register> Take(
        string folder,
        ImmutableArray<Noting> notings,
        bool undo,
        string? rebuild,
        Occasion occasion
    )
    {
        Stage<RegisterFile> held = RegisterFile.Hold(folder, Patience);
        if (!held.Ok)
        {
            return Stage.Failed<Register>(held.Findings);
        }
        using RegisterFile file = held.Value!;
        if (rebuild is { } from && file.Rebuild(from == "copy") is { } damage)
        {
            return Stage.Failed<Register>(damage);
        }
        Stage<Register> read = file.Open(occasion);
        if (!read.Ok)
        {
            return read;
        }
        Register register = read.Value!;
        if (rebuild is { } source)
        {
            register = register.Noted(occasion, Happening.TakenOver, why: $"rebuilt from the {source}");
        }
        foreach (Noting noting in notings)
        {
            Stage<Register> next = ShelfEvents.Apply(register, folder, noting, occasion);
            if (!next.Ok)
            {
                return next;
            }
            register = next.Value!;
        }
        Stage<Register> undone = undo ? Undo.Last(register, folder, occasion) : Stage.Answer(register);
        return !undone.Ok ? undone
            : file.Write(undone.Value!) is { } trouble ? Stage.Failed<Register>(trouble)
            : Stage.Answer(undone.Value!, FrozenBlock.Show(folder, undone.Value!));
    }
}
