namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Takes the entries of the LAYER and LTYPE tables (DXF Reference, TABLES section). A layer's colour below 0 means off, bit 1
/// of its flags frozen, 290 = 0 not plotted; a line type whose pattern has a gap or a dot is no solid line.
/// </summary>
internal sealed class TableSink(DxfFile into, GroupReader reader)
{
    /// <summary>No program plots the layer that dimensions keep their points on (common practice, no source).</summary>
    private const string NeverPlotted = "DEFPOINTS";

    /// <summary>Entries taken so far.</summary>
    public int Count { get; private set; }

    public void Take(EntityGroups groups)
    {
        Count++;
        string name = groups.Text(2);
        if (groups.Type == "LAYER")
        {
            into.Layers.TryAdd(name, Layer(groups, name));
        }
        else
        {
            into.LineTypes.TryAdd(name, HasGaps(groups));
        }
    }

    private static DrawnLayer Layer(EntityGroups groups, string name)
    {
        EntityLook look = groups.Look;
        return new DrawnLayer(
            look.LineType,
            look.Colour == EntityLook.ByLayer.Colour ? 7 : Math.Abs(look.Colour),
            look.Rgb,
            look.Colour < 0,
            (groups.IntegerOr(70, 0) & 1) != 0,
            groups.IntegerOr(290, 1) != 0 && !name.Equals(NeverPlotted, StringComparison.OrdinalIgnoreCase)
        );
    }

    // 49 is a dash above 0, a gap below, a dot at 0
    private bool HasGaps(EntityGroups groups)
    {
        foreach (Group group in groups.All)
        {
            if (group.Code == 49 && reader.Number(group) is <= 0)
            {
                return true;
            }
        }
        return false;
    }
}
