using System.Buffers;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// A stretch of memory for as long as it is needed, given back for the next picture: the first use of new memory costs more
/// than most of what is done with it.
/// </summary>
/// <param name="length">Items wanted; what they hold is not known.</param>
internal sealed class Borrowed<T>(int length) : IDisposable
    where T : unmanaged
{
    private T[]? _array = ArrayPool<T>.Shared.Rent(length);

    public Span<T> Span => Array.AsSpan(0, length);

    /// <summary>The items and perhaps more behind them.</summary>
    public T[] Array => _array ?? throw new ObjectDisposedException(nameof(Borrowed<>));

    public void Dispose()
    {
        if (_array is not null)
        {
            ArrayPool<T>.Shared.Return(_array);
            _array = null;
        }
    }
}
