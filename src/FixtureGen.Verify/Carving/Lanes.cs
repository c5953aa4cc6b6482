using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>What the library has no word for, over the lanes of a vector.</summary>
internal static class Lanes
{
    public static float Greatest(Vector256<float> v)
    {
        float greatest = v[0];
        for (int i = 1; i < Vector256<float>.Count; i++)
        {
            greatest = Math.Max(greatest, v[i]);
        }
        return greatest;
    }
}
