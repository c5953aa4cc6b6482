using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen;

/// <summary>What a run is given: texts and bytes only. Number, fixture id and revision come from the register where the job is silent.</summary>
public sealed record Request(
    string JobName,
    string JobFile,
    string JobText,
    string DrawingFile,
    byte[] Drawing,
    ShopFiles Shop,
    Registered Registered,
    string Version,
    Action<string> Progress
)
{
    /// <summary>
    /// Asked once the programs are written: another number or revision to make them under, or null where these stay. A remade
    /// fixture whose programs differ gets its next revision this way, without being judged and drawn twice.
    /// </summary>
    public Func<ImmutableArray<ProgramText>, Job, Registered?> Revise { get; init; } = static (_, _) => null;
}

/// <summary>What the register says of a job. Overrules: an older block on the shelf has the number that the job states, so the register's own counts.</summary>
public sealed record Registered(int ProgramNumber, string FixtureId, int Revision, bool Overrules);
