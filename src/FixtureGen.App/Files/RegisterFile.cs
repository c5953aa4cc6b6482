using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// The register on disk, held open for one writer at a time. The lock is an open file, so that it ends with the process,
/// also when killed; the register itself is replaced by one rename.
/// </summary>
internal sealed class RegisterFile : IDisposable
{
    /// <summary>What opening a file that another holds says: EWOULDBLOCK on Linux and on macOS, a sharing violation on Windows.</summary>
    private static readonly int[] HeldByAnother = [11, 35, unchecked((int)0x80070020)];

    private readonly FileStream _held;

    private RegisterFile(string path, FileStream held)
    {
        Path = path;
        _held = held;
    }

    /// <summary>Of library.toml; the lock lies beside it.</summary>
    public string Path { get; }

    /// <summary>Reads without a lock: what make and check do. Failed too where the files of a cut block are there and its entry is not.</summary>
    public static Stage<Register> Read(string folder)
    {
        string path = System.IO.Path.Combine(folder, Register.FileName);
        try
        {
            Stage<Register> read = File.Exists(path)
                ? RegisterText.Read(File.ReadAllText(path), path)
                : Stage.Answer(Register.Empty);
            return read.Ok && LostBlocks.Find(folder, read.Value!, path).ToArray() is { Length: > 0 } lost
                ? Stage.Failed<Register>(lost)
                : read;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<Register>(
                new Finding("register-unreadable", Severity.Error, path, e.Message, "free the file or its permissions")
            );
        }
    }

    /// <summary>Takes the register for writing; a finding where another run holds it or the folder cannot be written.</summary>
    public static Stage<RegisterFile> Hold(string folder)
    {
        string path = System.IO.Path.Combine(folder, Register.FileName);
        string lockPath = path + ".lock";
        try
        {
            FileStream held = new(lockPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            return Stage.Answer(new RegisterFile(path, held));
        }
        catch (IOException e) when (HeldByAnother.Contains(e.HResult))
        {
            return Stage.Failed<RegisterFile>(
                new Finding(
                    "register-busy",
                    Severity.Error,
                    path,
                    "another run is writing this library",
                    "wait until it ends, then run again; nothing was changed"
                )
            );
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<RegisterFile>(NotWritable(path, e.Message));
        }
    }

    /// <summary>Replaces the register by one rename; unchanged text keeps the file's time. Null when done, else why the old one stays.</summary>
    public Finding? Write(Register register)
    {
        string text = RegisterText.Write(register);
        try
        {
            if (!File.Exists(Path) || File.ReadAllText(Path) != text)
            {
                OutputFolder.ReplaceFile(Path, System.Text.Encoding.UTF8.GetBytes(text));
            }
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return NotWritable(Path, e.Message);
        }
    }

    private static Finding NotWritable(string path, string why) =>
        new(
            "register-not-writable",
            Severity.Error,
            path,
            why,
            "free the folder's permissions or its disk, then run again; the register was not changed"
        );

    /// <summary>Lets the next writer in.</summary>
    public void Dispose()
    {
        // The lock file stays: deleting it could take it from under the next holder.
        _held.Dispose();
    }
}
