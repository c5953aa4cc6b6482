using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>Walks a drawing's groups once, front to back. Comments (999) are passed over.</summary>
internal abstract class GroupReader(byte[] bytes)
{
    protected byte[] Bytes { get; } = bytes;

    /// <summary>The group just read.</summary>
    public Group Current { get; protected set; }

    /// <summary>Why reading stopped before the end; null while nothing is wrong.</summary>
    public Finding? Fault { get; protected set; }

    /// <summary>Blank lines found where a group code belongs.</summary>
    public int BlankLines { get; protected set; }

    /// <summary>False at the end of the groups or at a fault.</summary>
    public bool Read()
    {
        while (TryNext())
        {
            if (Current.Code != 999)
            {
                return true;
            }
        }
        return false;
    }

    public ReadOnlySpan<byte> Raw(Group group) => Bytes.AsSpan(group.Start, group.Length);

    /// <summary>The value as a number; null where it is none or not finite.</summary>
    public abstract double? Number(Group group);

    /// <summary>The value as a whole number; null where it is none.</summary>
    public int? Integer(Group group) =>
        Number(group) is { } n && Math.Abs(n) <= int.MaxValue ? (int)Math.Round(n) : null;

    protected abstract bool TryNext();
}
