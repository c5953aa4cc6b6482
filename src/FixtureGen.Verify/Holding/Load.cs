using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>One force of a cutter on what is held, N: Shear along the plane at a place and a height (mm) over the contact, Lift upwards.</summary>
internal readonly record struct Load(Point2 At, Point2 Shear, double Lift, double Height);
