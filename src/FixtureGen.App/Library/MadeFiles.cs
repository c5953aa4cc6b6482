using System.Collections.Immutable;
using System.Security.Cryptography;
using FixtureGen.App.Records;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>The files of a run as the register knows them, the report among them.</summary>
internal static class MadeFiles
{
    /// <summary>Of what was just made.</summary>
    public static ImmutableArray<MadeFile> From(Fixture f, ImmutableArray<OutputFile> files) =>
        [.. files.Select(o => new MadeFile(f.Job, f.Revision, f.Trim, o.Name, Delivery.Hash(o), o.Bytes.Length))];

    /// <summary>Of what was made before, by its report; empty where that is of a time that knew no hashes, or gone.</summary>
    public static ImmutableArray<MadeFile> Read(string folder, Fixture f, Report report)
    {
        string name = f.Job + ".report.json";
        string path = Path.Combine(folder, name);
        if (report.Files is not { } files || files.Any(m => m.Sha256 is null) || !File.Exists(path))
        {
            return [];
        }
        byte[] own = File.ReadAllBytes(path);
        return
        [
            .. files.Select(m => new MadeFile(f.Job, f.Revision, f.Trim, m.File, m.Sha256!, m.Bytes)),
            new MadeFile(f.Job, f.Revision, f.Trim, name, Convert.ToHexStringLower(SHA256.HashData(own)), own.Length),
        ];
    }
}
