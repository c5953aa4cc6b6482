using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>
/// What the judge is given: the job (plate, tools, control, machine), the design, the finished program texts in any order (they
/// run by setup: underside, top, trim), and what is allowed. Setups of the block without a program are taken from the design
/// as if cut perfectly.
/// </summary>
public sealed record VerifyRequest(Job Job, FixtureDesign Design, ImmutableArray<ProgramText> Programs, Limits Limits);
