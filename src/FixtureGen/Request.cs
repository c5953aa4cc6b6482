using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen;

/// <summary>What a run is given: texts and bytes only. Number, fixture id and revision come from the register where the job is silent.</summary>
public sealed record Request
{
    /// <summary>The job file's name without .toml.</summary>
    public required string JobName { get; init; }

    /// <summary>Its path, for findings.</summary>
    public required string JobFile { get; init; }

    /// <summary>What stands in it.</summary>
    public required string JobText { get; init; }

    /// <summary>The drawing's path, for findings.</summary>
    public required string DrawingFile { get; init; }

    /// <summary>The drawing's bytes.</summary>
    public required byte[] Drawing { get; init; }

    /// <summary>Where shop files are found.</summary>
    public required ShopFiles Shop { get; init; }

    /// <summary>What the register says of the job.</summary>
    public required Registered Registered { get; init; }

    /// <summary>The program's own version, for the report.</summary>
    public required string Version { get; init; }

    /// <summary>Called with each step's name as it begins.</summary>
    public required Action<string> Progress { get; init; }

    /// <summary>Whether to find out what each stated value costs, which solves the job anew for each of them.</summary>
    public bool StatedCosts { get; init; }

    /// <summary>
    /// Asked once the programs are written: another number or revision to make them under, or null where these stay. A remade
    /// fixture whose programs differ gets its next revision this way, without being judged and drawn twice.
    /// </summary>
    public Func<ImmutableArray<ProgramText>, Job, Registered?> Revise { get; init; } = static (_, _) => null;
}

/// <summary>What the register says of a job. Overrules: an older block on the shelf has the number that the job states, so the register's own counts.</summary>
public sealed record Registered(int ProgramNumber, string FixtureId, int Revision, bool Overrules);
