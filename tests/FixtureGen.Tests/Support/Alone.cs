using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>Tests that measure time run one after the other, beside no others.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class Alone
{
    public const string Name = "alone";
}
