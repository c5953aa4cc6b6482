using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>What can be wrong with a register as it lies on the disk.</summary>
internal static class RegisterFindings
{
    /// <summary>Another run writes it.</summary>
    public static Finding Busy(string path) =>
        new(
            "register-busy",
            Severity.Error,
            path,
            "another run is writing this library",
            "wait until it ends, then run again; nothing was changed"
        );

    /// <summary>The folder or the disk takes nothing.</summary>
    public static Finding NotWritable(string path, string why) =>
        new(
            "register-not-writable",
            Severity.Error,
            path,
            why,
            "free the folder's permissions or its disk, then run again; the register was not changed"
        );

    /// <summary>It is there and cannot be read.</summary>
    public static Finding Unreadable(string path, string why) =>
        new("register-unreadable", Severity.Error, path, why, "free the file or its permissions");

    /// <summary>The readable copy is not what was last written.</summary>
    public static Finding Altered(string path) =>
        new(
            "register-altered",
            Severity.Error,
            path,
            $"it is not what was last written beside {Register.DatabaseName}: one of the two was changed or exchanged",
            "'fixturegen register DIR --rebuild copy' takes this file for the truth, '--rebuild database' writes it again; the other is kept aside"
        );

    /// <summary>The database cannot be understood.</summary>
    public static Finding DatabaseDamaged(string path, string why) =>
        new(
            "register-damaged",
            Severity.Error,
            path,
            why,
            $"'fixturegen register DIR --rebuild copy' makes it anew from {Register.FileName}; nothing was changed"
        );

    /// <summary>There is nothing to rebuild the register from.</summary>
    public static Finding NothingToRebuild(string path) =>
        new(
            "register-unreadable",
            Severity.Error,
            path,
            "there is no such register to rebuild the other from",
            "bring it back from a copy"
        );
}
