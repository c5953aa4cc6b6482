using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>How many pieces a block unfolds to, counted without unfolding it: each block once, however often it is inserted.</summary>
internal sealed class BlockSizes(DxfFile drawing, string file)
{
    private const int DeepestBlock = 64;

    private readonly Dictionary<string, (double Pieces, int Depth)> _sizes = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _open = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Pieces of one insert with its array; a refusal where blocks contain themselves or lie too deep.</summary>
    public double PiecesIn(InsertEntity insert, out Finding? refusal) => PiecesIn(insert, out _, out refusal);

    private double PiecesIn(InsertEntity insert, out int depth, out Finding? refusal)
    {
        refusal = null;
        depth = 0;
        double cells = (double)insert.Columns * insert.Rows;
        if (!drawing.Blocks.TryGetValue(insert.Block, out Block? block))
        {
            return 0;
        }
        if (_sizes.TryGetValue(block.Name, out (double Pieces, int Depth) known))
        {
            depth = known.Depth;
            refusal = TooDeep(_open.Count + depth, insert);
            return cells * known.Pieces;
        }
        if (!_open.Add(block.Name))
        {
            refusal = DxfFindings.BlockInItself(file, block.Name, insert.Line);
            return 0;
        }
        refusal = TooDeep(_open.Count, insert);
        if (refusal is not null)
        {
            return 0;
        }
        double size = 1;
        foreach (Entity entity in block.Entities)
        {
            int below = 0;
            size += entity is InsertEntity inner ? PiecesIn(inner, out below, out refusal) : 1;
            depth = Math.Max(depth, below);
            if (refusal is not null)
            {
                return 0;
            }
        }
        _open.Remove(block.Name);
        depth++;
        _sizes[block.Name] = (size, depth);
        return cells * size;
    }

    private Finding? TooDeep(int depth, InsertEntity insert) =>
        depth > DeepestBlock ? DxfFindings.BlockTooDeep(file, insert.Block, insert.Line, DeepestBlock) : null;
}
