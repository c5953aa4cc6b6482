using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace FixtureGen.App.Files;

/// <summary>A fault of our own as it was logged. Log is the log's path, null where none could be written.</summary>
internal sealed record Fault(string Id, Exception Cause, string? Log)
{
    /// <summary>What broke, with the id that finds it in the log.</summary>
    public string Message => $"our own fault {Id}: {Cause.GetType().Name}: {Cause.Message}";

    /// <summary>What the person is asked to do.</summary>
    public string Remedy =>
        Log is null
            ? "please report it with the job and the drawing; no log could be written"
            : $"please report it with the job, the drawing and {Log}";
}

/// <summary>
/// The one place that an exception which nobody expected ends in, on the command line, on the page and in a regeneration: it
/// gets an id and is appended to out/fixturegen-faults.log of the library that one of the paths lies in (else of the working
/// folder), or of the temporary folder where that cannot be written.
/// </summary>
internal sealed class FaultLog(IReadOnlyList<string> paths)
{
    /// <summary>The log's name in its folder.</summary>
    public const string FileName = "fixturegen-faults.log";

    /// <summary>The log never grows beyond this; the older half makes room.</summary>
    public const int MostBytes = 1 << 20;

    private const int MostEntryLetters = 64 * 1024;
    private const int Tries = 40;
    private const int PauseMs = 25;
    private const string EntryStart = "== fault ";

    private static readonly Lock Gate = new();

    /// <summary>Logs it with id, time (UTC), version and stack; it never throws. Doing is what was asked for.</summary>
    public Fault Record(Exception cause, string doing)
    {
        string id = "F" + Convert.ToHexString(RandomNumberGenerator.GetBytes(4));
        byte[] entry = Encoding.UTF8.GetBytes(Entry(id, cause, doing));
        string? log = Folders().FirstOrDefault(f => Append(f, entry));
        return new Fault(id, cause, log is null ? null : Path.Combine(log, FileName));
    }

    private static string Entry(string id, Exception cause, string doing)
    {
        string time = DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        string stack = cause.ToString();
        if (stack.Length > MostEntryLetters)
        {
            stack = stack[..MostEntryLetters] + " ...";
        }
        return $"{EntryStart}{id}\ntime: {time}\nversion: {ProductVersion.Text}\nsystem: {RuntimeInformation.OSDescription}, {RuntimeInformation.FrameworkDescription}\ndoing: {doing}\n{stack}\n\n";
    }

    private IEnumerable<string> Folders()
    {
        foreach (string path in paths.Where(IsPath).Append("."))
        {
            // The path may be the library's own folder, so the search begins in it.
            if (LibraryFolder.Find(Path.Combine(path, "_")).Value is { } library)
            {
                yield return library.Out;
                break;
            }
        }
        yield return Path.GetTempPath();
    }

    /// <summary>Tells a path among the words of a command line: it is there, or it names a folder.</summary>
    private static bool IsPath(string word) =>
        !word.Contains('\0', StringComparison.Ordinal)
        && (File.Exists(word) || Directory.Exists(word) || Path.GetDirectoryName(word) is { Length: > 0 });

    private static bool Append(string folder, byte[] entry)
    {
        try
        {
            Directory.CreateDirectory(folder);
            lock (Gate)
            {
                using FileStream log = OpenAlone(Path.Combine(folder, FileName));
                MakeRoom(log, entry.Length);
                log.Seek(0, SeekOrigin.End);
                log.Write(entry);
                return true;
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>The log for this process alone; another one that writes is waited for, one second at most.</summary>
    private static FileStream OpenAlone(string path)
    {
        for (int i = 1; ; i++)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (i < Tries && File.Exists(path))
            {
                Thread.Sleep(PauseMs);
            }
        }
    }

    private static void MakeRoom(FileStream log, int bytes)
    {
        if (log.Length + bytes <= MostBytes)
        {
            return;
        }
        byte[] kept = new byte[Math.Min(log.Length, MostBytes / 2)];
        log.Seek(-kept.Length, SeekOrigin.End);
        log.ReadExactly(kept);
        int first = kept.AsSpan().IndexOf(Encoding.UTF8.GetBytes("\n" + EntryStart));
        log.SetLength(0);
        log.Write(kept.AsSpan(first < 0 ? kept.Length : first + 1));
    }
}
