namespace FixtureGen.Verify.Carving;

/// <summary>Looks for the highest of the cells that are not cut through.</summary>
internal ref struct Standing(BlockGrid grid)
{
    private readonly Heights _top = grid.TopHeights;
    private readonly Heights _bottom = grid.BottomHeights;
    private float _highest = float.MinValue;

    /// <summary>Null while none was seen.</summary>
    public readonly float? Highest => _highest > float.MinValue ? _highest : null;

    public void Look(Span1 span)
    {
        int end = span.First + span.Count;
        int tiles = _top.TileAt(span.Row);
        for (int i = span.First; i < end; )
        {
            int x = i / Heights.Tile;
            int next = Math.Min(end, (x + 1) * Heights.Tile);
            bool alike = x < _top.TileColumns && !float.IsNaN(_top.Alike[tiles + x] + _bottom.Alike[tiles + x]);
            int seen = alike ? i + 1 : next;
            for (; i < seen; i++)
            {
                See(span.Row, i);
            }
            i = next;
        }
    }

    private void See(int row, int column)
    {
        float top = _top.At(row, column);
        if (top > _bottom.At(row, column) && top > _highest)
        {
            _highest = top;
        }
    }
}
