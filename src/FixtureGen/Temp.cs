using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Holding
{
    public static class MagnetPlacement
    {
        public static Stage<ImmutableArray<MagnetPlace>> Choose(FixtureDesign d, Job job, Tolerances t) =>
            Stage.Of<ImmutableArray<MagnetPlace>>([
                .. d.Part.MagnetWishes.Select(w => new MagnetPlace(w, false, true)),
            ]);
    }

    public static class BlockHolding
    {
        public static Stage<ImmutableArray<BlockHold>> Evaluate(
            FixtureDesign d,
            Job job,
            ImmutableArray<ProgramPlan> p
        ) => Stage.Of(ImmutableArray<BlockHold>.Empty);
    }
}
