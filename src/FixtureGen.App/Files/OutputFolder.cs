using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.InteropServices;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Files;

/// <summary>
/// Puts a job's files into a folder whole or not at all. A folder that holds nothing but the job's own files is replaced
/// by one exchange with its successor, so that even a killed run leaves either the old files or the new ones. In a folder
/// that holds other things too, all files are written first and then renamed one by one; the others are not touched.
/// A file whose bytes did not change keeps its time.
/// </summary>
internal static partial class OutputFolder
{
    /// <summary>Names the pipeline may give a job's file; anything else in the folder is somebody else's.</summary>
    private static readonly string[] Endings =
    [
        ".underside.nc",
        ".top.nc",
        ".trim.nc",
        ".fixture.dxf",
        ".preview.png",
        ".preview.svg",
        ".block.png",
        ".holding.png",
        ".setup.pdf",
        ".traveler.pdf",
        ".cutlist.csv",
        ".report.json",
    ];

    private const string Probe = ".probe-";

    /// <summary>This machine's name without what could end it within a folder's name.</summary>
    private static readonly string Machine = string.Concat(Environment.MachineName.Where(char.IsAsciiLetterOrDigit));

    private static readonly TimeSpan LongestRun = TimeSpan.FromDays(2);

    /// <summary>Writes the files; a folder that cannot be written is a finding and leaves what was there.</summary>
    public static ImmutableArray<Finding> Replace(string folder, string job, ImmutableArray<OutputFile> files)
    {
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        string stamp = string.Create(CultureInfo.InvariantCulture, $"{Environment.ProcessId}-{Machine}");
        string next = Path.Combine(
            Path.GetDirectoryName(full)!,
            $".{Path.GetFileName(full)}.next-{stamp}-{Guid.NewGuid():N}"
        );
        try
        {
            if (File.Exists(full))
            {
                return [NotWritable(full, "it is a file, not a folder")];
            }
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            if (Directory.Exists(full))
            {
                ProveWritable(full);
            }
            Directory.CreateDirectory(next);
            foreach (OutputFile file in files)
            {
                WriteThrough(Path.Combine(next, file.Name), file.Bytes.AsSpan(), Path.Combine(full, file.Name));
            }
            if (OnlyOurs(full, job) && !Holds(full, Environment.CurrentDirectory))
            {
                Swap(full, next);
            }
            else
            {
                MoveEach(next, full, job, [.. files.Select(f => f.Name)]);
            }
            return [];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [NotWritable(full, e.Message)];
        }
        finally
        {
            TryDelete(next);
        }
    }

    /// <summary>Replaces one file by a rename, so that a killed run leaves the old one or the new one.</summary>
    public static void ReplaceFile(string path, ReadOnlySpan<byte> bytes)
    {
        string next = path + ".next";
        WriteAside(next, bytes);
        try
        {
            File.Move(next, path, overwrite: true);
        }
        catch
        {
            Drop(next);
            throw;
        }
    }

    /// <summary>Writes a file that shall take another's name later; on the disk when it returns, gone again where it cannot be written.</summary>
    public static void WriteAside(string path, ReadOnlySpan<byte> bytes)
    {
        try
        {
            using FileStream stream = new(path, FileMode.Create, FileAccess.Write);
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
        }
        catch
        {
            Drop(path);
            throw;
        }
    }

    /// <summary>Takes a file of ours away; one that cannot be is left for the next run to replace.</summary>
    public static void Drop(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What made it fail is told already; this file does no harm.
        }
    }

    /// <summary>Removes what killed runs left beside the jobs' folders: successors whose process is gone.</summary>
    public static void Sweep(string parent)
    {
        if (!Directory.Exists(parent))
        {
            return;
        }
        foreach (string left in Directory.EnumerateDirectories(parent, ".*.next-*"))
        {
            string[] stamp = left[(left.LastIndexOf(".next-", StringComparison.Ordinal) + 6)..].Split('-');
            bool isId = int.TryParse(stamp[0], NumberStyles.None, CultureInfo.InvariantCulture, out int id);
            // a process of another machine cannot be asked: what it writes is left alone until it is older than any run
            bool own = stamp.Length < 3 || stamp[1] == Machine;
            if (isId && (own ? !Runs(id) : Directory.GetLastWriteTimeUtc(left) < DateTime.UtcNow - LongestRun))
            {
                TryDelete(left);
            }
        }
    }

    private static bool Runs(int id)
    {
        try
        {
            using System.Diagnostics.Process process = System.Diagnostics.Process.GetProcessById(id);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static Finding NotWritable(string folder, string why) =>
        new(
            "out-not-writable",
            Severity.Error,
            folder,
            $"the output folder cannot be written: {why}",
            "free it or its disk, or name another with -o; the files that were there are kept"
        );

    private static void ProveWritable(string folder)
    {
        string probe = Path.Combine(folder, $"{Probe}{Guid.NewGuid():N}");
        File.WriteAllBytes(probe, []);
        File.Delete(probe);
    }

    private static void WriteThrough(string path, ReadOnlySpan<byte> bytes, string old)
    {
        using (FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write))
        {
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
        }
        if (
            File.Exists(old)
            && new FileInfo(old).Length == bytes.Length
            && File.ReadAllBytes(old).AsSpan().SequenceEqual(bytes)
        )
        {
            File.SetLastWriteTimeUtc(path, File.GetLastWriteTimeUtc(old));
        }
    }

    /// <summary>A file of the job, or the probe of a run that was killed before it could take it away.</summary>
    private static bool IsOurs(string name, string job) =>
        name.StartsWith(Probe, StringComparison.Ordinal)
        || Endings.Any(e => string.Equals(name, job + e, StringComparison.Ordinal));

    private static bool OnlyOurs(string full, string job) =>
        !Directory.Exists(full)
        || Directory.EnumerateFileSystemEntries(full).All(e => IsOurs(Path.GetFileName(e), job));

    private static bool Holds(string folder, string inner) =>
        inner == folder || inner.StartsWith(folder + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    private static void MoveEach(string next, string full, string job, HashSet<string> names)
    {
        foreach (string file in Directory.EnumerateFiles(next).Order(StringComparer.Ordinal))
        {
            File.Move(file, Path.Combine(full, Path.GetFileName(file)), overwrite: true);
        }
        foreach (string old in Directory.EnumerateFiles(full))
        {
            string name = Path.GetFileName(old);
            if (IsOurs(name, job) && !names.Contains(name))
            {
                File.Delete(old);
            }
        }
    }

    private static void Swap(string full, string next)
    {
        if (!Directory.Exists(full))
        {
            Directory.Move(next, full);
            return;
        }
        if (OperatingSystem.IsLinux() && Exchange(-100, next, -100, full, 2) == 0)
        {
            return;
        }
        // Elsewhere two moves; the old folder stays beside it under a telling name if the second one fails.
        string aside = next + ".old";
        Directory.Move(full, aside);
        try
        {
            Directory.Move(next, full);
        }
        catch
        {
            Directory.Move(aside, full);
            throw;
        }
        TryDelete(aside);
    }

    private static void TryDelete(string folder)
    {
        try
        {
            if (Directory.Exists(folder))
            {
                Directory.Delete(folder, recursive: true);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Rubbish beside the result does no harm; the next run names its own folder.
        }
    }

    /// <summary>renameat2 with RENAME_EXCHANGE (2): swaps two names in one step; AT_FDCWD is -100.</summary>
    [LibraryImport("libc", EntryPoint = "renameat2", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    private static partial int Exchange(int oldDir, string oldPath, int newDir, string newPath, uint flags);
}
