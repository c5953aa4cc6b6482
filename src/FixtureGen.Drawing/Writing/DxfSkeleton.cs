using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Writing;

/// <summary>What a release 2000 drawing must have round its entities: header, tables, the two layout blocks, the root dictionary (DXF Reference, 2000).</summary>
internal static class DxfSkeleton
{
    private const string PaperSpace = "1B";

    public static void Before(GroupWriter g, DxfSheet sheet)
    {
        Section(g, "HEADER");
        g.Text(9, "$ACADVER").Text(1, "AC1015");
        g.Text(9, "$DWGCODEPAGE").Text(3, "ANSI_1252");
        g.Text(9, "$HANDSEED").Text(5, "FFFFFF");
        g.Text(9, "$INSUNITS").Integer(70, DxfUnits.Code(sheet.Unit));
        bool inch = sheet.Unit is LengthUnit.Inch or LengthUnit.Foot or LengthUnit.Yard or LengthUnit.Mil;
        g.Text(9, "$MEASUREMENT").Integer(70, inch ? 0 : 1);
        g.Text(0, "ENDSEC");
        Tables(g, sheet);
        Section(g, "BLOCKS");
        LayoutBlock(g, "*Model_Space", GroupWriter.ModelSpace, "20", "21");
        LayoutBlock(g, "*Paper_Space", PaperSpace, "1C", "1D");
        g.Text(0, "ENDSEC");
        Section(g, "ENTITIES");
    }

    public static void After(GroupWriter g)
    {
        g.Text(0, "ENDSEC");
        Section(g, "OBJECTS");
        g.Text(0, "DICTIONARY").Text(5, "C").Text(330, "0").Text(100, "AcDbDictionary").Integer(281, 1);
        g.Text(3, "ACAD_GROUP").Text(350, "D");
        g.Text(0, "DICTIONARY").Text(5, "D").Text(330, "C").Text(100, "AcDbDictionary").Integer(281, 1);
        g.Text(0, "ENDSEC");
        g.Text(0, "EOF");
    }

    private static void Tables(GroupWriter g, DxfSheet sheet)
    {
        Section(g, "TABLES");
        Table(g, "VPORT", "8", 1);
        Record(g, "VPORT", "9", "8", "AcDbViewportTableRecord", "*Active");
        g.Real(10, 0).Real(20, 0).Real(11, 1).Real(21, 1).Real(12, 0).Real(22, 0).Real(40, 1000).Real(41, 1.5);
        g.Text(0, "ENDTAB");
        Table(g, "LTYPE", "5", 3);
        LineType(g, "14", "ByBlock");
        LineType(g, "15", "ByLayer");
        LineType(g, "16", "Continuous");
        g.Text(0, "ENDTAB");
        List<DxfLayer> layers = [new("0", 7), .. sheet.Layers.Where(l => l.Name != "0")];
        Table(g, "LAYER", "2", layers.Count);
        foreach (DxfLayer layer in layers)
        {
            Record(g, "LAYER", layer.Name == "0" ? "10" : g.Handle(), "2", "AcDbLayerTableRecord", layer.Name);
            g.Integer(62, layer.Color).Text(6, "Continuous").Text(390, "0");
        }
        g.Text(0, "ENDTAB");
        Table(g, "STYLE", "3", 1);
        Record(g, "STYLE", "11", "3", "AcDbTextStyleTableRecord", "Standard");
        g.Real(40, 0).Real(41, 1).Real(50, 0).Integer(71, 0).Real(42, 2.5).Text(3, "txt").Text(4, "");
        g.Text(0, "ENDTAB");
        Table(g, "VIEW", "6", 0);
        g.Text(0, "ENDTAB");
        Table(g, "UCS", "7", 0);
        g.Text(0, "ENDTAB");
        Table(g, "APPID", "9A", 1);
        Record(g, "APPID", "12", "9A", "AcDbRegAppTableRecord", "ACAD");
        g.Text(0, "ENDTAB");
        DimensionStyles(g);
        Table(g, "BLOCK_RECORD", "1", 2);
        BlockRecord(g, GroupWriter.ModelSpace, "*Model_Space");
        BlockRecord(g, PaperSpace, "*Paper_Space");
        g.Text(0, "ENDTAB");
        g.Text(0, "ENDSEC");
    }

    private static void DimensionStyles(GroupWriter g)
    {
        Table(g, "DIMSTYLE", "A", 1);
        g.Text(100, "AcDbDimStyleTable").Integer(71, 1);
        // the one record whose handle stands under 105
        g.Text(0, "DIMSTYLE").Text(105, "27").Text(330, "A").Text(100, "AcDbSymbolTableRecord");
        g.Text(100, "AcDbDimStyleTableRecord").Text(2, "Standard").Integer(70, 0);
        g.Text(0, "ENDTAB");
    }

    private static void Section(GroupWriter g, string name) => g.Text(0, "SECTION").Text(2, name);

    private static void Table(GroupWriter g, string name, string handle, int records) =>
        g.Text(0, "TABLE")
            .Text(2, name)
            .Text(5, handle)
            .Text(330, "0")
            .Text(100, "AcDbSymbolTable")
            .Integer(70, records);

    private static void Record(GroupWriter g, string type, string handle, string owner, string subclass, string name) =>
        g.Text(0, type)
            .Text(5, handle)
            .Text(330, owner)
            .Text(100, "AcDbSymbolTableRecord")
            .Text(100, subclass)
            .Text(2, type is "LAYER" ? GroupWriter.Name(name) : name)
            .Integer(70, 0);

    private static void LineType(GroupWriter g, string handle, string name)
    {
        Record(g, "LTYPE", handle, "5", "AcDbLinetypeTableRecord", name);
        g.Text(3, "").Integer(72, 65).Integer(73, 0).Real(40, 0);
    }

    private static void BlockRecord(GroupWriter g, string handle, string name) =>
        g.Text(0, "BLOCK_RECORD")
            .Text(5, handle)
            .Text(330, "1")
            .Text(100, "AcDbSymbolTableRecord")
            .Text(100, "AcDbBlockTableRecord")
            .Text(2, name);

    private static void LayoutBlock(GroupWriter g, string name, string owner, string begin, string end)
    {
        g.Text(0, "BLOCK").Text(5, begin).Text(330, owner).Text(100, "AcDbEntity").Text(8, "0");
        g.Text(100, "AcDbBlockBegin").Text(2, name).Integer(70, 0).Real(10, 0).Real(20, 0).Real(30, 0);
        g.Text(3, name).Text(1, "");
        g.Text(0, "ENDBLK").Text(5, end).Text(330, owner).Text(100, "AcDbEntity").Text(8, "0");
        g.Text(100, "AcDbBlockEnd");
    }
}
