using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>What all tables of one file share: the file's name, its unit, and the findings so far.</summary>
internal sealed class ReadLog(string file)
{
    public string File { get; } = file;

    /// <summary>The unit of bare lengths; null where the file states none, and then a bare length is a mistake.</summary>
    public LengthUnit? Unit { get; set; }

    /// <summary>The unit to speak in of bare lengths; millimetres where the file states none.</summary>
    public LengthUnit BareUnit => Unit ?? LengthUnit.Millimetre;

    /// <summary>True where the unit is stated wrongly: then no bare measure can be judged, and none is.</summary>
    public bool UnitInDoubt { get; set; }

    public List<Finding> Findings { get; } = [];

    /// <summary>What the file leaves open although a hold rests on it, each with the number taken for it.</summary>
    public List<string> Assumed { get; } = [];

    /// <summary>Says all that was assumed in one note, where nothing is refused; called once, when the file is read.</summary>
    public void SayAssumed()
    {
        if (Assumed.Count > 0 && !Failed)
        {
            Findings.Add(ShopFindings.Assumed(File, Assumed));
        }
    }

    /// <summary>Every key that the reader asked for, in its order, with what it may be; null where nobody wants to know.</summary>
    public List<AskedKey>? Asked { get; init; }

    /// <summary>Whether keys of rows and of tables that are left out are remembered too, as the form of a shop file wants them.</summary>
    public bool AskWhole { get; init; }

    public bool Failed => Findings.Exists(f => f.Severity == Severity.Error);
}
