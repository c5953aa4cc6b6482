using System.Data.Common;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// What database and readable copy say together. Stored is null where there is no database yet: then the copy is the truth.
/// CopyIsCurrent is false where a run was killed between the two. IsOfBefore: the copy is of the time before the database.
/// </summary>
internal sealed record RegisterOnDisk(
    Register Register,
    RegisterDatabase.Stored? Stored,
    bool CopyIsCurrent,
    bool IsOfBefore
)
{
    /// <summary>Reads both; failed where they contradict each other or one cannot be read.</summary>
    public static Stage<RegisterOnDisk> Find(string folder)
    {
        string copy = Path.Combine(folder, Register.FileName);
        try
        {
            (RegisterDatabase.Stored? stored, Finding? trouble) = Database(Path.Combine(folder, Register.DatabaseName));
            if (trouble is not null)
            {
                return Stage.Failed<RegisterOnDisk>(trouble);
            }
            string? text = File.Exists(copy) ? File.ReadAllText(copy) : null;
            if (stored is { } known)
            {
                string hash = text is null ? known.CopyHashBefore : RegisterText.Hash(text);
                return hash == known.CopyHash || hash == known.CopyHashBefore || text is null
                    ? Stage.Answer(
                        new RegisterOnDisk(known.Register, known, text is not null && hash == known.CopyHash, false),
                        known.Register.Contradictions(copy)
                    )
                    : Stage.Failed<RegisterOnDisk>(RegisterFindings.Altered(copy));
            }
            if (text is null)
            {
                return Stage.Answer(new RegisterOnDisk(Register.Empty, null, true, false));
            }
            Stage<Register> read = RegisterText.Read(text, copy);
            return read.Ok
                ? Stage.Answer(
                    new RegisterOnDisk(read.Value!, null, true, RegisterText.IsOfBefore(text)),
                    read.Findings
                )
                : Stage.Failed<RegisterOnDisk>(read.Findings);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<RegisterOnDisk>(RegisterFindings.Unreadable(copy, e.Message));
        }
    }

    /// <summary>What there is once a register was written over <paramref name="before"/>.</summary>
    public static RegisterOnDisk Written(Register register, string copyHash, RegisterOnDisk before) =>
        new(
            register,
            new RegisterDatabase.Stored(register, copyHash, before.Stored?.CopyHash ?? ""),
            CopyIsCurrent: true,
            IsOfBefore: false
        );

    /// <summary>The database's own; null in it where there is none.</summary>
    public static (RegisterDatabase.Stored? Stored, Finding? Trouble) Database(string path)
    {
        try
        {
            if (!File.Exists(path))
            {
                return (null, null);
            }
            using DbConnection connection = RegisterConnection.ForReading(path);
            return (RegisterDatabase.Read(connection), null);
        }
        catch (InvalidDataException e)
        {
            return (null, RegisterFindings.DatabaseDamaged(path, e.Message));
        }
        catch (DbException e)
        {
            return (
                null,
                RegisterConnection.IsDamage(e)
                    ? RegisterFindings.DatabaseDamaged(path, e.Message)
                    : RegisterFindings.Unreadable(path, e.Message)
            );
        }
    }
}
