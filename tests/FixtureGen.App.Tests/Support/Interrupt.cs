using System.Diagnostics;

namespace FixtureGen.App.Tests.Support;

/// <summary>
/// A shell that is not interactive starts its background jobs with the interrupt ignored, and whatever those start inherits
/// it (POSIX.1-2017, Shell Command Language, 2.11): a program under such a test would never see the interrupt.
/// </summary>
internal static class Interrupt
{
    /// <summary>The same start, with the interrupt heeded whatever this process inherited; the process keeps its number.</summary>
    public static ProcessStartInfo Heeded(ProcessStartInfo start)
    {
        // coreutils 8.31 and later; other systems' env has no such option, and their shells are asked not to ignore it
        if (OperatingSystem.IsLinux())
        {
            start.ArgumentList.Insert(0, start.FileName);
            start.ArgumentList.Insert(0, "--default-signal=INT");
            start.FileName = "env";
        }
        return start;
    }
}
