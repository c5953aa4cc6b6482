namespace FixtureGen.Model;

/// <summary>Which keys a job leaves open, for the solver to choose; what is not among them is honoured as it is stated.</summary>
[Flags]
public enum OpenKeys
{
    /// <summary>Everything is stated.</summary>
    None = 0,

    /// <summary>The stock.</summary>
    Blank = 1,

    /// <summary>The cord.</summary>
    Gasket = 2,

    /// <summary>The kind of disc.</summary>
    Magnet = 4,

    /// <summary>How many magnets.</summary>
    Count = 8,

    /// <summary>The cutter that trims.</summary>
    TrimTool = 16,

    /// <summary>How many passes go through the shell.</summary>
    Passes = 32,

    /// <summary>The trim's feed.</summary>
    Feed = 64,

    /// <summary>The trim's spindle speed.</summary>
    Rpm = 128,

    /// <summary>Where the pins stand that locate the shell by its scrap.</summary>
    Pins = 256,
}
