using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>
/// Puts every entity into the plane, blocks unfolded at each insert: P = OCS[insert + turn (scale (p - base)) + column and
/// row steps], the steps turned but not scaled (DXF Reference, INSERT). What would unfold without end is refused.
/// </summary>
internal sealed class Unfolder(DxfFile drawing, string file, double scale, double chord)
{
    /// <summary>Most curves, texts, points and inserts together.</summary>
    public const int MostPieces = 200_000;

    /// <summary>Most lines and arcs that these may come to.</summary>
    private const int MostSegments = 400_000;

    private readonly BlockSizes _sizes = new(drawing, file);
    private readonly Looks _looks = new(drawing);

    private readonly Strokes _strokes = new(file, chord);
    private readonly SortedDictionary<string, (int Line, int Count)> _missing = new(StringComparer.OrdinalIgnoreCase);
    private readonly SortedSet<string> _outside = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<Finding> _findings = [];
    private long _pieces;

    public Strokes Strokes => _strokes;

    public List<Finding> Findings => _findings;

    /// <summary>Null when all is unfolded, else why it was refused.</summary>
    public Finding? Run()
    {
        Finding? refusal = All(drawing.Entities, Affine3.Scale(scale, scale, scale), null, null);
        _strokes.TakeFills();
        if (refusal is null && _strokes.SegmentCount > MostSegments)
        {
            refusal = DxfFindings.TooMany(file, "lines and arcs", _strokes.SegmentCount, MostSegments);
        }
        foreach ((string name, (int line, int count)) in _missing)
        {
            _findings.Add(DxfFindings.BlockMissing(file, name, line, count));
        }
        _findings.AddRange(_strokes.Findings());
        return refusal;
    }

    private Finding? All(List<Entity> entities, Affine3 place, string? insertLayer, CurveLook? insertLook)
    {
        foreach (Entity entity in entities)
        {
            if (++_pieces > MostPieces)
            {
                return DxfFindings.TooMany(file, "curves after unfolding its blocks", _pieces, MostPieces);
            }
            if (_strokes.SegmentCount > MostSegments)
            {
                return DxfFindings.TooMany(file, "lines and arcs", _strokes.SegmentCount, MostSegments);
            }
            string layer = insertLayer is { } outer && entity.Layer == "0" ? outer : entity.Layer;
            CurveLook look = _looks.Resolve(entity.Look, layer, insertLook);
            if (entity is not InsertEntity insert)
            {
                _strokes.Add(entity, place, layer, look);
            }
            else if (Insert(insert, place, layer, look) is { } refusal)
            {
                return refusal;
            }
        }
        return null;
    }

    private Finding? Insert(InsertEntity insert, Affine3 place, string layer, CurveLook look)
    {
        if (!drawing.Blocks.TryGetValue(insert.Block, out Block? block))
        {
            (int line, int count) = _missing.GetValueOrDefault(insert.Block, (insert.Line, 0));
            _missing[insert.Block] = (line, count + 1);
            return null;
        }
        if (block.External && block.Entities.Count == 0)
        {
            if (_outside.Add(block.Name))
            {
                _findings.Add(DxfFindings.BlockOutside(file, block.Name, insert.Line));
            }
            return null;
        }
        double pieces = _sizes.PiecesIn(insert, out Finding? refusal);
        if (refusal is not null)
        {
            return refusal;
        }
        return _pieces + pieces > MostPieces
            ? DxfFindings.BlockBomb(file, block.Name, insert.Line, MostPieces)
            : Cells(insert, block, place, layer, look);
    }

    private Finding? Cells(InsertEntity insert, Block block, Affine3 place, string layer, CurveLook look)
    {
        Affine3 first = place.After(insert.Place).After(Affine3.Shift(block.Base * -1));
        for (int row = 0; row < insert.Rows; row++)
        {
            for (int column = 0; column < insert.Columns; column++)
            {
                Vec3 step = place.Turn((insert.ColumnStep * column) + (insert.RowStep * row));
                _pieces++;
                if (All(block.Entities, first with { Origin = first.Origin + step }, layer, look) is { } refusal)
                {
                    return refusal;
                }
            }
        }
        return null;
    }
}
