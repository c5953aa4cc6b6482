namespace FixtureGen.Verify.Carving;

/// <summary>Looks for the highest of the cells that are not cut through.</summary>
internal ref struct Standing(BlockGrid grid)
{
    private readonly ReadOnlySpan<float> _top = grid.TopHeights.Alike;
    private readonly ReadOnlySpan<float> _bottom = grid.BottomHeights.Alike;
    private float _highest = float.MinValue;

    /// <summary>Null while none was seen.</summary>
    public readonly float? Highest => _highest > float.MinValue ? _highest : null;

    public void Look(int start, int count)
    {
        int end = start + count;
        while (start < end)
        {
            int run = start / Heights.Run;
            int next = Math.Min(end, (run + 1) * Heights.Run);
            if (run < _top.Length && !float.IsNaN(_top[run]) && !float.IsNaN(_bottom[run]))
            {
                See(_top[run], _bottom[run]);
            }
            else
            {
                for (int i = start; i < next; i++)
                {
                    See(grid.TopHeights.At(i), grid.BottomHeights.At(i));
                }
            }
            start = next;
        }
    }

    private void See(float top, float bottom)
    {
        if (top > bottom && top > _highest)
        {
            _highest = top;
        }
    }
}
