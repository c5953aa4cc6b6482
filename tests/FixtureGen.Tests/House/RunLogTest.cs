using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.House;

/// <summary>A run stops at its first error, and says why.</summary>
public class RunLogTest
{
    [Fact]
    public void A_stage_with_an_error_ends_the_run_and_keeps_what_was_found()
    {
        RunLog log = new(_ => { });
        Finding error = new("outline-open", Severity.Error, "part.dxf", "gap of 1 mm", "Close it.");

        Assert.Throws<Stopped>(() => log.Take("part", () => Stage.Failed<string>(error)));

        Assert.Equal(error, Assert.Single(log.Findings));
    }

    [Fact]
    public void A_stage_with_a_value_and_an_error_ends_the_run_too()
    {
        RunLog log = new(_ => { });
        Finding error = new("outline-open", Severity.Error, "part.dxf", "gap of 1 mm", "Close it.");

        Assert.Throws<Stopped>(() => log.Take("part", () => Stage.Answer("half", [error])));
    }

    [Fact]
    public void Geometry_that_could_not_be_proven_is_a_finding_of_its_step()
    {
        RunLog log = new(_ => { });

        Assert.Throws<Stopped>(() =>
            log.Take<string>("zones", () => throw new KernelException("no offset by 3.175 mm could be proven"))
        );

        Finding found = Assert.Single(log.Findings);
        Assert.Equal("geometry-unproven", found.Code);
        Assert.Equal(Severity.Error, found.Severity);
        Assert.Equal("zones", found.Where);
        Assert.Contains("3.175", found.Message, StringComparison.Ordinal);
        Assert.NotEmpty(found.Remedy);
    }

    [Fact]
    public void Progress_names_each_step_before_it_runs()
    {
        List<string> told = [];
        RunLog log = new(told.Add);

        int atTheTime = log.Do("zones", () => told.Count);

        Assert.Equal(1, atTheTime);
        Assert.Equal(["zones"], told);
    }
}
