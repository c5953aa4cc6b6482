using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Reads HEADER, TABLES (layers and line types), BLOCKS and ENTITIES; the other sections are walked over. Sections may be missing, unclosed, in any order
/// and in any case; entities outside every section count as ENTITIES.
/// </summary>
internal sealed class DxfScan
{
    /// <summary>Most entities in one drawing.</summary>
    public const int MostEntities = 200_000;

    private readonly GroupReader _reader;
    private readonly string _file;
    private readonly Codepages _pages = new();
    private readonly DxfFile _into = new();
    private readonly EntityGroups _groups;
    private readonly EntitySink _sink;
    private readonly TableSink _tables;
    private string _section = "";
    private bool _ended;
    private bool _seenEntities;

    private DxfScan(GroupReader reader, string file)
    {
        _reader = reader;
        _file = file;
        _groups = new EntityGroups(reader, _pages);
        _sink = new EntitySink(_into, file);
        _tables = new TableSink(_into, reader);
    }

    /// <summary>The file's sections; null with the reason in <paramref name="refusal"/> where it cannot be trusted.</summary>
    public static DxfFile? Read(GroupReader reader, string file, out Finding? refusal)
    {
        var scan = new DxfScan(reader, file);
        refusal = scan.Run();
        return refusal is null ? scan._into : null;
    }

    private Finding? Run()
    {
        bool inEntity = false;
        while (!_ended && _reader.Read())
        {
            Group group = _reader.Current;
            if (group.Code == 0)
            {
                if (inEntity)
                {
                    Take();
                }
                inEntity = StartsEntity(group);
            }
            else if (inEntity)
            {
                _groups.Add(group);
            }
            else
            {
                Outside(group);
            }
            if (_sink.Count + _tables.Count > MostEntities)
            {
                return DxfFindings.TooMany(_file, "entities", _sink.Count + _tables.Count, MostEntities);
            }
            if (_groups.Full)
            {
                return DxfFindings.TooMany(
                    _file,
                    $"groups in one {_groups.Type}",
                    EntityGroups.Most,
                    EntityGroups.Most
                );
            }
        }
        if (inEntity && _reader.Fault is null && !_ended)
        {
            Take();
        }
        _sink.Finish();
        return Closing();
    }

    private void Take()
    {
        if (_section == "TABLES")
        {
            _tables.Take(_groups);
        }
        else
        {
            _sink.Take(_groups, _section == "BLOCKS");
        }
    }

    private Finding? Closing()
    {
        _into.Odd("blank lines where a group code belongs", _reader.BlankLines);
        if (_reader.Fault is { } fault)
        {
            if (!_seenEntities || _section is "ENTITIES" or "BLOCKS" or "HEADER" or "TABLES" or "CLASSES")
            {
                return fault;
            }
            _into.Findings.Add(fault with { Severity = Severity.Warning });
        }
        else if (!_ended)
        {
            _into.Findings.Add(DxfFindings.NoEnd(_file));
        }
        return null;
    }

    // Structure words are handled here; the return value says whether groups of an entity follow.
    private bool StartsEntity(Group group)
    {
        string word = _groups.Text(group).ToUpperInvariant();
        switch (word)
        {
            case "SECTION":
                _section = "?";
                return false;
            case "ENDSEC":
                _section = "";
                return false;
            case "EOF":
                _ended = true;
                return false;
            default:
                break;
        }
        if (_section is "?")
        {
            _section = "";
        }
        bool wanted = _section is "ENTITIES" or "BLOCKS" or "" || (_section == "TABLES" && word is "LAYER" or "LTYPE");
        if (wanted)
        {
            _seenEntities |= _section is "ENTITIES" or "";
            _groups.Start(word, group.Line);
        }
        return wanted;
    }

    private void Outside(Group group)
    {
        if (_section == "?" && group.Code == 2)
        {
            _section = _groups.Text(group).ToUpperInvariant();
            _seenEntities |= _section == "ENTITIES";
        }
        else if (_section == "HEADER")
        {
            Header(group);
        }
    }

    private string _variable = "";

    private void Header(Group group)
    {
        switch (_variable, group.Code)
        {
            case (_, 9):
                _variable = _groups.Text(group).ToUpperInvariant();
                break;
            case ("$ACADVER", 1):
                _into.Version = _groups.Text(group).ToUpperInvariant();
                break;
            case ("$DWGCODEPAGE", 3):
                string page = _groups.Text(group);
                _into.Odd($"unknown codepage {page}, read as ANSI_1252", _pages.UsePage(page) ? 0 : 1);
                break;
            case ("$INSUNITS", 70):
                _into.InsUnits = _reader.Integer(group);
                break;
            case ("$MEASUREMENT", 70):
                _into.Measurement = _reader.Integer(group);
                break;
            default:
                break;
        }
    }
}
