namespace FixtureGen.App.Terminal;

/// <summary>What a command ends with: 0 made, 1 refused (findings say why), 2 wrong usage, 3 our own fault.</summary>
internal static class ExitCode
{
    /// <summary>What was asked for was done, and no finding is an error.</summary>
    public const int Made = 0;

    /// <summary>Findings on standard error say why; also a regeneration that was stopped before its end.</summary>
    public const int Refused = 1;

    /// <summary>The command line is not understood; nothing was begun.</summary>
    public const int Usage = 2;

    /// <summary>A promise of the program was broken; standard error has what to report.</summary>
    public const int OurFault = 3;
}
