using System.Runtime.InteropServices;

namespace FixtureGen.Output.Scenes;

/// <summary>Holds an array where it is while others read and write it by its address.</summary>
internal sealed class Pinned(byte[] array) : IDisposable
{
    private GCHandle _handle = GCHandle.Alloc(array, GCHandleType.Pinned);

    public nint Address => _handle.AddrOfPinnedObject();

    public void Dispose() => _handle.Free();
}
