using System.Data.Common;
using System.Diagnostics;
using System.Text;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// The register on disk, held by one writer at a time. The lock is an open file, so that it ends with the process, also when
/// killed. The database is the truth; its readable copy is written beside it before each commit and takes its name right
/// after, and the database knows the hashes of that copy and of the one before, so that a run killed in between is mended by
/// the next and a copy that somebody changed is noticed.
/// </summary>
internal sealed class RegisterFile : IDisposable
{
    /// <summary>What opening a file that another holds says: EWOULDBLOCK on Linux and on macOS, a sharing violation on Windows.</summary>
    private static readonly int[] HeldByAnother = [11, 35, unchecked((int)0x80070020)];

    private readonly FileStream _held;
    private readonly string _folder;
    private RegisterOnDisk? _onDisk;

    private RegisterFile(string folder, FileStream held)
    {
        _folder = folder;
        _held = held;
    }

    /// <summary>Reads without a lock: what check does. Failed too where the files of a cut block are there and its entry is not.</summary>
    public static Stage<Register> Read(string folder)
    {
        Stage<RegisterOnDisk> found = RegisterOnDisk.Find(folder);
        return found.Ok ? WithoutLoss(folder, found.Value!.Register) : Stage.Failed<Register>(found.Findings);
    }

    /// <summary>Takes the register for writing; a finding where another run holds it for longer than that, or the folder cannot be written.</summary>
    public static Stage<RegisterFile> Hold(string folder, TimeSpan wait)
    {
        string path = Path.Combine(folder, Register.FileName);
        Stopwatch waited = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                FileStream held = new(path + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
                return Stage.Answer(new RegisterFile(folder, held));
            }
            catch (IOException e) when (HeldByAnother.Contains(e.HResult))
            {
                if (waited.Elapsed >= wait)
                {
                    return Stage.Failed<RegisterFile>(RegisterFindings.Busy(path));
                }
                Thread.Sleep(20);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return Stage.Failed<RegisterFile>(RegisterFindings.NotWritable(path, e.Message));
            }
        }
    }

    /// <summary>What is written there; what a killed run left half done is mended, and a register of before is taken over by the next write.</summary>
    public Stage<Register> Open(Occasion occasion)
    {
        Stage<RegisterOnDisk> found = RegisterOnDisk.Find(_folder);
        if (!found.Ok)
        {
            return Stage.Failed<Register>(found.Findings);
        }
        _onDisk = found.Value!;
        if (_onDisk is { Stored: { } stored, CopyIsCurrent: false } && WriteCopy(stored.Register) is { } trouble)
        {
            return Stage.Failed<Register>(trouble);
        }
        Stage<Register> whole = WithoutLoss(_folder, _onDisk.Register);
        return whole.Ok && _onDisk.IsOfBefore
            ? Stage.Answer(TakeOver.Past(whole.Value!, occasion), whole.Findings)
            : whole;
    }

    /// <summary>Writes database and copy, whole or not at all; a register that is what it was writes nothing. Null when done, else why the old one stays.</summary>
    public Finding? Write(Register register)
    {
        RegisterOnDisk onDisk = _onDisk!;
        string text = RegisterText.Write(register);
        string hash = RegisterText.Hash(text);
        if (onDisk.Stored is { } stored && stored.CopyHash == hash)
        {
            return null;
        }
        string copy = Path.Combine(_folder, Register.FileName);
        string next = copy + ".next";
        try
        {
            if (onDisk.IsOfBefore)
            {
                TakeOver.KeepCopy(copy);
            }
            OutputFolder.WriteAside(next, Encoding.UTF8.GetBytes(text));
            using (
                DbConnection connection = RegisterConnection.ForWriting(Path.Combine(_folder, Register.DatabaseName))
            )
            {
                RegisterDatabase.Write(connection, onDisk.Stored, register, hash);
            }
            _onDisk = RegisterOnDisk.Written(register, hash, onDisk);
            File.Move(next, copy, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or DbException)
        {
            OutputFolder.Drop(next);
            return RegisterFindings.NotWritable(copy, e.Message);
        }
    }

    /// <summary>
    /// Ends a quarrel of database and copy: the one named stays, the other is kept aside and made anew from it. Null when done.
    /// </summary>
    public Finding? Rebuild(bool fromCopy)
    {
        string copy = Path.Combine(_folder, Register.FileName);
        string database = Path.Combine(_folder, Register.DatabaseName);
        try
        {
            if (!fromCopy)
            {
                (RegisterDatabase.Stored? stored, Finding? trouble) = RegisterOnDisk.Database(database);
                return trouble
                    ?? (stored is null ? RegisterFindings.NothingToRebuild(database) : WriteCopy(stored.Register));
            }
            if (!File.Exists(copy))
            {
                return RegisterFindings.NothingToRebuild(copy);
            }
            Stage<Register> read = RegisterText.Read(File.ReadAllText(copy), copy);
            if (!read.Ok)
            {
                return read.Findings[0];
            }
            if (File.Exists(database))
            {
                File.Move(database, Path.Combine(_folder, "library.before.db"), overwrite: true);
            }
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return RegisterFindings.NotWritable(copy, e.Message);
        }
    }

    /// <summary>Lets the next writer in.</summary>
    public void Dispose()
    {
        // The lock file stays: deleting it could take it from under the next holder.
        _held.Dispose();
    }

    private static Stage<Register> WithoutLoss(string folder, Register register) =>
        LostBlocks.Find(folder, register, Path.Combine(folder, Register.FileName)).ToArray() is { Length: > 0 } lost
            ? Stage.Failed<Register>(lost)
            : Stage.Answer(register);

    private Finding? WriteCopy(Register register)
    {
        string copy = Path.Combine(_folder, Register.FileName);
        try
        {
            OutputFolder.ReplaceFile(copy, Encoding.UTF8.GetBytes(RegisterText.Write(register)));
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return RegisterFindings.NotWritable(copy, e.Message);
        }
    }
}
