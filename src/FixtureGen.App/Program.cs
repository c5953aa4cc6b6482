using System.CommandLine;
using FixtureGen.App.Commands;

namespace FixtureGen.App;

/// <summary>Exit codes: 0 made, 1 refused (findings say why), 2 wrong usage, 3 our own fault.</summary>
public static class Program
{
    public const int Made = 0;
    public const int Refused = 1;
    public const int Usage = 2;
    public const int OurFault = 3;

    public static int Main(string[] args)
    {
        ArgumentNullException.ThrowIfNull(args);
        Say say = new(Console.Out, Console.Error);
        try
        {
            RootCommand root = CommandTree.Root(say);
            ParseResult parsed = root.Parse(args);
            if (parsed.Errors.Count > 0)
            {
                foreach (string error in WrongUsage.Of(parsed))
                {
                    say.Error($"usage: {error}");
                }
                say.Error("usage: see 'fixturegen --help'");
                return Usage;
            }
            return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (OperationCanceledException)
        {
            say.Error("stopped; nothing was left half written");
            return Refused;
        }
#pragma warning disable CA1031 // The last line of defence: whatever it was, it is our fault and must say so.
        catch (Exception e)
#pragma warning restore CA1031
        {
            say.Error($"fixturegen: our own fault: {e.GetType().Name}: {e.Message}");
            say.Error(e.StackTrace ?? "");
            say.Error("Nothing was written. Please report this with the job and the drawing.");
            return OurFault;
        }
    }
}
