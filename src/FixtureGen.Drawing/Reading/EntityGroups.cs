using System.Runtime.InteropServices;

namespace FixtureGen.Drawing.Reading;

/// <summary>
/// The groups of one entity, less what belongs to application data (102 braces), embedded objects (101) and extended data
/// (1000 and up), with questions that never guess: a number is null where the file's text is none.
/// </summary>
internal sealed class EntityGroups(GroupReader reader, Codepages pages)
{
    /// <summary>Most groups that one entity may have.</summary>
    public const int Most = 800_000;

    private readonly List<Group> _groups = [];
    private int _braces;
    private bool _embedded;

    public string Type { get; private set; } = "";

    public string Layer { get; private set; } = "0";

    public int Line { get; private set; }

    /// <summary>What was wrong with the first value that could not be read; null while nothing was.</summary>
    public string? Fault { get; private set; }

    public bool OnPaper { get; private set; }

    public EntityLook Look { get; private set; } = EntityLook.ByLayer;

    /// <summary>Vertices that a polyline says it has and those found, where they differ.</summary>
    public (int Said, int Found)? Miscount { get; private set; }

    /// <summary>What was written oddly and read all the same; null where nothing was.</summary>
    public string? Oddity { get; set; }

    public ReadOnlySpan<Group> All => CollectionsMarshal.AsSpan(_groups);

    public bool Full => _groups.Count >= Most;

    public void Start(string type, int line)
    {
        _groups.Clear();
        (_braces, _embedded, OnPaper, Fault, Miscount, Oddity) = (0, false, false, null, null, null);
        (Type, Layer, Line, Look) = (type, "0", line, EntityLook.ByLayer);
    }

    public void Add(Group group)
    {
        if (group.Code is 101)
        {
            _embedded = true;
        }
        if (group.Code is 102)
        {
            ReadOnlySpan<byte> brace = reader.Raw(group).Trim(" \t"u8);
            _braces = brace.StartsWith("{"u8) ? _braces + 1 : Math.Max(0, _braces - 1);
        }
        if (_embedded || _braces > 0 || group.Code is >= 1000 or 102 || Full)
        {
            return;
        }
        switch (group.Code)
        {
            case 8:
                Layer = Text(group);
                break;
            case 67:
                OnPaper |= reader.Integer(group) is 1;
                break;
            case 410:
                OnPaper |= !Text(group).Equals("Model", StringComparison.OrdinalIgnoreCase);
                break;
            case 6:
                Look = Look with { LineType = Text(group) };
                break;
            case 60:
                Look = Look with { Invisible = reader.Integer(group) is 1 };
                break;
            case 62:
                Look = Look with { Colour = reader.Integer(group) ?? 256 };
                break;
            case 420:
                Look = Look with { Rgb = reader.Integer(group) };
                break;
            case 5 or 7 or 48 or 100 or 330 or 370:
                break;
            default:
                _groups.Add(group);
                break;
        }
    }

    public string Text(Group group) => pages.Decode(reader.Raw(group)).Trim();

    /// <summary>The text as it stands, blanks kept.</summary>
    public string RawText(Group group) => pages.Decode(reader.Raw(group));

    public string Text(int code) => TryFind(code, out Group group) ? Text(group) : "";

    public double? Value(Group group)
    {
        double? value = reader.Number(group);
        if (value is null)
        {
            Fault ??= DxfFindings.Text($"group {group.Code} at {group.Line} holds no number");
        }
        return value;
    }

    /// <summary>The number with that code; null where it is missing or none.</summary>
    public double? Number(int code) => TryFind(code, out Group group) ? Value(group) : null;

    /// <summary>The same with a value for a code that is not there; null only where the text is no number.</summary>
    public double? NumberOr(int code, double missing) => TryFind(code, out Group group) ? Value(group) : missing;

    public int IntegerOr(int code, int missing) =>
        TryFind(code, out Group group) ? reader.Integer(group) ?? missing : missing;

    /// <summary>The point whose X has that code; Z may be missing.</summary>
    public Vec3? Point(int code) =>
        Number(code) is { } x && Number(code + 10) is { } y && NumberOr(code + 20, 0) is { } z
            ? new Vec3(x, y, z)
            : null;

    /// <summary>The entity's own axes, from its extrusion direction.</summary>
    public Affine3 Frame() =>
        TryFind(230, out _) || TryFind(210, out _) || TryFind(220, out _)
            ? Affine3.Facing(new(NumberOr(210, 0) ?? 0, NumberOr(220, 0) ?? 0, NumberOr(230, 1) ?? 1))
            : Affine3.Identity;

    public void Note(int said, int found)
    {
        if (said != found)
        {
            Miscount = (said, found);
        }
    }

    private bool TryFind(int code, out Group found)
    {
        foreach (Group group in All)
        {
            if (group.Code == code)
            {
                found = group;
                return true;
            }
        }
        found = default;
        return false;
    }
}
