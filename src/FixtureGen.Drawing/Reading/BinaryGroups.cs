using System.Buffers.Binary;

namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Groups of a binary drawing (DXF Reference, Binary DXF Files): little-endian, codes of two bytes, before release 13 of
/// one byte with 255 as the escape to two; strings end with a zero byte.
/// </summary>
internal sealed class BinaryGroups : GroupReader
{
    private readonly string _file;
    private readonly bool _shortCodes;
    private int _at = Sentinel.Length;

    public BinaryGroups(byte[] bytes, string file)
        : base(bytes)
    {
        _file = file;
        // the first group is 0 SECTION: a second zero byte is the code's upper half
        _shortCodes = bytes.Length > _at + 1 && bytes[_at + 1] != 0;
    }

    /// <summary>The 22 bytes that a binary drawing starts with.</summary>
    public static ReadOnlySpan<byte> Sentinel => "AutoCAD Binary DXF\r\n\x1a\0"u8;

    public override double? Number(Group group)
    {
        ReadOnlySpan<byte> raw = Raw(group);
        double value = ValueKinds.ForCode(group.Code) switch
        {
            ValueKind.Real => BinaryPrimitives.ReadDoubleLittleEndian(raw),
            ValueKind.Int16 => BinaryPrimitives.ReadInt16LittleEndian(raw),
            ValueKind.Int32 => BinaryPrimitives.ReadInt32LittleEndian(raw),
            ValueKind.Int64 => BinaryPrimitives.ReadInt64LittleEndian(raw),
            ValueKind.Bool => raw[0],
            _ => double.NaN,
        };
        return double.IsFinite(value) ? value : null;
    }

    protected override bool TryNext()
    {
        int from = _at;
        if (_at >= Bytes.Length)
        {
            return false;
        }
        if (!TryCode(out int code))
        {
            Fault = DxfFindings.CutShort(_file, from);
            return false;
        }
        if (ValueKinds.ForCode(code) is not { } kind)
        {
            Fault = DxfFindings.BadBinaryCode(_file, from, code);
            return false;
        }
        int start = kind == ValueKind.Chunk ? _at + 1 : _at;
        int length = ValueLength(kind);
        int next = start + length + (kind == ValueKind.Text ? 1 : 0);
        if (length < 0 || next > Bytes.Length)
        {
            Fault = DxfFindings.CutShort(_file, from);
            return false;
        }
        Current = new Group(code, start, length, from);
        _at = next;
        return true;
    }

    private bool TryCode(out int code)
    {
        code = 0;
        if (!_shortCodes || Bytes[_at] == 255)
        {
            int start = _shortCodes ? _at + 1 : _at;
            if (start + 2 > Bytes.Length)
            {
                return false;
            }
            code = BinaryPrimitives.ReadInt16LittleEndian(Bytes.AsSpan(start));
            _at = start + 2;
            return true;
        }
        code = Bytes[_at++];
        return true;
    }

    private int ValueLength(ValueKind kind) =>
        kind switch
        {
            ValueKind.Text => Bytes.AsSpan(_at).IndexOf((byte)0),
            ValueKind.Real or ValueKind.Int64 => 8,
            ValueKind.Int16 => 2,
            ValueKind.Int32 => 4,
            ValueKind.Bool => 1,
            ValueKind.Chunk => _at < Bytes.Length ? Bytes[_at] : -1,
        };
}
