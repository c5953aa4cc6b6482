using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// A place as a job file says it: four decimals of the job's unit, in the part frame. A place that is chosen is rounded so
/// before anything is computed with it, and a job that is saved with it gives the same numbers.
/// </summary>
public static class WrittenPlace
{
    private const int Decimals = 4;

    /// <summary>The part frame's place of a plate frame's, rounded; both mm.</summary>
    public static Point2 InPart(Point2 plate, Pose pose, Job job)
    {
        double unit = Unit(job);
        Point2 at = Transform.Apply(Transform.Inverse(pose), plate);
        return new(Math.Round(at.X / unit, Decimals) * unit, Math.Round(at.Y / unit, Decimals) * unit);
    }

    /// <summary>The same, back in the plate frame.</summary>
    public static Point2 OnPlate(Point2 plate, Pose pose, Job job) => Transform.Apply(pose, InPart(plate, pose, job));

    /// <summary>Farthest that a place can lie from its rounded one, mm: what a choice keeps over its clearances.</summary>
    public static double Farthest(Job job) => Math.Sqrt(0.5) * Math.Pow(10, -Decimals) * Unit(job);

    private static double Unit(Job job) => job.DisplayUnit == LengthUnit.Inch ? Units.MmPerInch : 1;
}
