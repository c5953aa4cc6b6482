using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>
/// What the judge is given: the job (plate, tools, control, machine), the design, the finished program texts in any order (they
/// run by setup: underside, top, trim), and what is allowed. Setups of the block without a program are taken from the design
/// as if cut perfectly.
/// </summary>
public sealed record VerifyRequest(Job Job, FixtureDesign Design, ImmutableArray<ProgramText> Programs, Limits Limits)
{
    /// <summary>
    /// The part as the drawing says it, part frame, mm: with it the judge believes the design in nothing that drawing, job or shop files
    /// say themselves. Null only for a design that is no fixture of a shop, whose programs are compared with it alone.
    /// </summary>
    public required Part? Drawing { get; init; }
}
