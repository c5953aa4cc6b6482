using System.Diagnostics;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>
/// kill -9 at any moment of what notes something: it was noted once or not at all, database and copy are one register again
/// with the next command, and no event is torn, lost or doubled. FIXTUREGEN_KILLS says how many (12 by default).
/// </summary>
[Trait("Speed", "Slow")]
public sealed class RegisterKillTest(ITestOutputHelper output)
{
    [Fact]
    public void What_was_killed_was_noted_once_or_not_at_all()
    {
        int kills = int.Parse(
            Environment.GetEnvironmentVariable("FIXTUREGEN_KILLS") ?? "12",
            CultureInfo.InvariantCulture
        );
        using ShelfLibrary library = new();
        library.Make("clip", 1, 1010);
        Assert.Empty(library.Note(new Noting("clip", Happening.Cut)));
        Stopwatch whole = Stopwatch.StartNew();
        Assert.Equal(0, Cli.Run(library.Jobs, "register", "--cycles", "clip", "--amount", "1").Exit);
        TimeSpan usual = whole.Elapsed;
        Random random = new(20261130);
        int least = 1;
        int noted = 0;
        int between = 0;
        for (int i = 0; i < kills; i++)
        {
            int before = library.Read().Events.Length;
            using Process run = Process.Start(
                Cli.Start(library.Jobs, "register", "--cycles", "clip", "--amount", "1")
            )!;
            // most of a run is its start: half of the kills aim at the writing, by the file that shows it
            if (i % 2 == 0)
            {
                Thread.Sleep(usual * (0.3 + (0.8 * random.NextDouble())));
            }
            else
            {
                while (!run.HasExited && !Writing(library))
                {
                    Thread.SpinWait(50);
                }
                Thread.SpinWait(random.Next(200_000));
            }
            run.Kill();
            run.WaitForExit();
            least += run.ExitCode == 0 ? 1 : 0;
            RegisterOnDisk found = RegisterOnDisk.Find(library.Jobs).Value!;
            between += found.CopyIsCurrent ? 0 : 1;
            int after = found.Register.Events.Length;
            Assert.InRange(after - before, run.ExitCode == 0 ? 1 : 0, 1);
            noted += after - before;
            Assert.Equal(noted + 1, found.Register.Blocks.Single().Cycles);
            Assert.Equal(Enumerable.Range(1, after), found.Register.Events.Select(e => e.Number));
        }
        Assert.InRange(noted + 1, least, kills + 1);
        Assert.Equal(0, Cli.Run(library.Jobs, "register", "--cord", "clip").Exit);
        Register end = library.Read();
        File.Delete(library.Database);
        Assert.Equal(end.Events, library.Read().Events);
        output.WriteLine(
            FormattableString.Invariant(
                $"{kills} kills: {noted} had noted it, {kills - noted} had not, {between} fell between database and copy"
            )
        );
    }

    private static bool Writing(ShelfLibrary library) =>
        File.Exists(library.Copy + ".next") || File.Exists(library.Database + "-journal");
}
