namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Takes finished entities: gathers BLOCK ... ENDBLK and POLYLINE ... SEQEND, sorts out paper space and counts. The words
/// may be missing: the next thing that cannot belong inside closes what is open.
/// </summary>
internal sealed class EntitySink(DxfFile into, string file)
{
    private Block? _block;
    private PolylineParts? _polyline;
    private bool _polylineOnPaper;

    /// <summary>Entities and vertices taken so far.</summary>
    public int Count { get; private set; }

    public void Take(EntityGroups groups, bool inBlocks)
    {
        Count++;
        if (groups.Type == "VERTEX" && _polyline is not null)
        {
            _polyline.Add(groups);
            return;
        }
        ClosePolyline();
        switch (groups.Type)
        {
            case "SEQEND" or "ATTRIB" or "VERTEX":
                break;
            case "BLOCK" when inBlocks:
                CloseBlock();
                _block = new Block(groups.Text(2), groups.Point(10) ?? default, (groups.IntegerOr(70, 0) & 4) != 0, []);
                break;
            case "ENDBLK":
                CloseBlock();
                break;
            case "POLYLINE":
                _polyline = new PolylineParts(groups);
                _polylineOnPaper = groups.OnPaper;
                break;
            default:
                Entity entity = EntityReader.Read(groups);
                if (groups.Miscount is { } miscount)
                {
                    into.Findings.Add(DxfFindings.Short(file, groups.Line, miscount.Said, miscount.Found));
                }
                if (groups.Oddity is { } oddity)
                {
                    into.Odd(oddity);
                }
                Put(entity with { Look = groups.Look }, groups.OnPaper);
                break;
        }
    }

    public void Finish()
    {
        ClosePolyline();
        CloseBlock();
    }

    private void ClosePolyline()
    {
        if (_polyline is { } parts)
        {
            _polyline = null;
            Put(parts.Entity(), _polylineOnPaper);
        }
    }

    private void Put(Entity entity, bool onPaper)
    {
        if (_block is not null)
        {
            _block.Entities.Add(entity);
        }
        else if (onPaper)
        {
            into.Paper[entity.Type] = into.Paper.GetValueOrDefault(entity.Type) + 1;
        }
        else
        {
            into.Entities.Add(entity);
        }
    }

    private void CloseBlock()
    {
        if (_block is not { } block)
        {
            return;
        }
        _block = null;
        if (block.Name.ToUpperInvariant() is "*MODEL_SPACE" or "$MODEL_SPACE")
        {
            into.Entities.AddRange(block.Entities);
        }
        else if (!into.Blocks.TryAdd(block.Name, block))
        {
            into.Odd($"block '{block.Name}' defined twice, the first one used");
        }
    }
}
