using System.CommandLine;
using FixtureGen.App.Commands;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;

namespace FixtureGen.App;

/// <summary>The command line's entry.</summary>
internal static class Program
{
    /// <summary>Runs one command and returns its exit code; it never throws.</summary>
    public static int Main(string[] args) =>
        Run(args, new Say(Console.Out, Console.Error), CommandTree.Root, new FaultLog(args));

    /// <summary>The same with another command line, other streams and another log.</summary>
    internal static int Run(string[] args, Say say, Func<Say, RootCommand> tree, FaultLog faults)
    {
        try
        {
            RootCommand root = tree(say);
            ParseResult parsed = root.Parse(args);
            if (parsed.Errors.Count > 0)
            {
                string[] errors = [.. WrongUsage.Explain(parsed)];
                foreach (string error in errors)
                {
                    say.Error($"usage: {error}");
                }
                say.Error("usage: see 'fixturegen --help'");
                return Ended(say, args, ExitCode.Usage, errors);
            }
            return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (OutputLostException e)
        {
            say.Error($"standard output: {e.Message}; what was asked for was done as far as the lines above say");
            return ExitCode.Refused;
        }
        catch (UnreadableFileException e)
        {
            say.Findings([e.Finding]);
            return Ended(say, args, ExitCode.Refused, e.Finding.Message, e.Finding.Remedy);
        }
#pragma warning disable CA1031 // The last line of defence: whatever it was, it is our fault and must say so.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Fault fault = faults.Record(e, string.Join(' ', args));
            say.Error($"fixturegen: {fault.Message}");
            say.Error($"What was asked for was not done; {fault.Remedy}.");
            if (fault.Log is null)
            {
                say.Error(e.ToString());
            }
            return Ended(say, args, ExitCode.OurFault, fault.Message, fault.Remedy);
        }
    }

    /// <summary>The one JSON object of a run that no command lived to answer.</summary>
    private static int Ended(Say say, string[] args, int exit, params string[] messages)
    {
        try
        {
            if (args.Contains(CommandTree.JsonName, StringComparer.Ordinal))
            {
                say.Json(AppJson.Ended(exit, messages));
            }
        }
        catch (OutputLostException e)
        {
            say.Error($"standard output: {e.Message}");
        }
        return exit;
    }
}
