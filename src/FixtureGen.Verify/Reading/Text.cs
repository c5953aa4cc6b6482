using System.Globalization;
using System.Runtime.CompilerServices;

namespace FixtureGen.Verify.Reading;

/// <summary>A message whose numbers are written the same in every culture; made from an interpolated or a plain string.</summary>
[InterpolatedStringHandler]
internal ref struct Text
{
    private DefaultInterpolatedStringHandler _inner;
    private readonly string? _plain;

    public Text(int literalLength, int formattedCount)
    {
        _inner = new DefaultInterpolatedStringHandler(literalLength, formattedCount, CultureInfo.InvariantCulture);
        _plain = null;
    }

    private Text(string plain)
    {
        _inner = default;
        _plain = plain;
    }

    public static implicit operator Text(string plain) => new(plain);

    public void AppendLiteral(string value) => _inner.AppendLiteral(value);

    public void AppendFormatted<T>(T value) => _inner.AppendFormatted(value);

    public void AppendFormatted<T>(T value, string format) => _inner.AppendFormatted(value, format);

    public string Take() => _plain ?? _inner.ToStringAndClear();
}
