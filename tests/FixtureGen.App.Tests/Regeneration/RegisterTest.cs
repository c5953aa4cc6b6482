using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

public sealed class RegisterTest
{
    private static readonly Occasion Today = new("2026-11-30T08:00:00Z", "Ada", "");
    private static readonly Fixture Sheath = new("sheath", "F1000", 1, 1000, "master", 3, FixtureState.Cut);

    [Fact]
    public void What_is_written_reads_back_the_same()
    {
        Register register = Register
            .Empty.With(Sheath)
            .With(new Fixture("a \"quoted\" \\ one", "F1010", 2, 1010, "master", 4, FixtureState.Planned));
        Stage<Register> read = RegisterText.Read(RegisterText.Write(register), "library.toml");
        Assert.Empty(read.Findings);
        Assert.Equal(register.Fixtures, read.Value!.Fixtures);
    }

    [Theory]
    [InlineData("[[fixture]]\njob = \"x\"\n", "lacks")]
    [InlineData("[[fixtures]]\njob = \"x\"\n", "unknown table")]
    [InlineData("job = \n", "")]
    public void Damage_is_told_with_its_line(string text, string says)
    {
        Stage<Register> read = RegisterText.Read(text, "library.toml");
        Assert.False(read.Ok);
        Finding f = read.Findings[0];
        Assert.Equal("register-damaged", f.Code);
        Assert.StartsWith("library.toml:", f.Where, StringComparison.Ordinal);
        Assert.Contains(says, f.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_wrong_state_and_type_is_named()
    {
        string good = RegisterText.Write(Register.Empty.With(Sheath));
        foreach (
            (string from, string to) in new[]
            {
                ("\"cut\"", "\"cutt\""),
                ("revision = 1", "revision = \"1\""),
                ("id = ", "idd = "),
                ("program = 1000", "program = 10.5"),
            }
        )
        {
            Stage<Register> read = RegisterText.Read(good.Replace(from, to, StringComparison.Ordinal), "library.toml");
            Assert.False(read.Ok, to);
        }
    }

    [Fact]
    public void A_number_used_by_two_jobs_is_an_error()
    {
        Register twice = Register.Empty.With(Sheath).With(Sheath with { Job = "other" });
        Finding f = Assert.Single(RegisterText.Read(RegisterText.Write(twice), "library.toml").Findings);
        Assert.Equal("number-used-twice", f.Code);
        Assert.Contains("1000", f.Message, StringComparison.Ordinal);
        Assert.Contains("other", f.Message, StringComparison.Ordinal);
    }

    /// <summary>A job takes N for the trim, N + 1 for the top and N + 2 for the underside: one machine holds them all.</summary>
    [Theory]
    [InlineData(1001, "1001 is the top of sheath and the trim of other")]
    [InlineData(1002, "1002 is the underside of sheath and the trim of other")]
    [InlineData(998, "1000 is the underside of other and the trim of sheath")]
    [InlineData(1003, "")]
    public void A_number_that_is_another_jobs_next_is_an_error(int program, string says)
    {
        Register near = Register.Empty.With(Sheath).With(Sheath with { Job = "other", Program = program });
        Finding[] found = [.. RegisterText.Read(RegisterText.Write(near), "library.toml").Findings];
        Assert.Equal(says.Length == 0 ? [] : ["number-used-twice"], found.Select(f => f.Code));
        Assert.All(found, f => Assert.EndsWith(says, f.Message, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("revision = 1", "revision = -1", ":7:1", "revision is -1; it must be from 1 to 9999")]
    [InlineData("program = 1000", "program = -7", ":9:1", "program is -7; it must be from 0 to 99999999")]
    [InlineData("program = 1000", "program = 9999999999", ":9:1", "program is 9999999999")]
    public void A_number_that_no_job_may_have_is_told_at_its_line(string good, string bad, string place, string says)
    {
        string text = RegisterText
            .Write(Register.Empty.With(Sheath))
            .Replace("\n" + good, "\n" + bad, StringComparison.Ordinal);
        Finding f = Assert.Single(RegisterText.Read(text, "library.toml").Findings);
        Assert.Equal("library.toml" + place, f.Where);
        Assert.StartsWith(says, f.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("F1000", nameof(Happening.Worn), "fixture F1000 is of the job sheath: name that")]
    [InlineData("heath", nameof(Happening.Worn), "did you mean sheath?")]
    [InlineData(
        "nothing",
        nameof(Happening.Cut),
        "name one of sheath; 'fixturegen regenerate lib' registers a new job"
    )]
    [InlineData(
        "sheath",
        nameof(Happening.Worn),
        "note the block as cut first: 'fixturegen register lib --cut sheath'"
    )]
    [InlineData(
        "sheath",
        nameof(Happening.Scrapped),
        "note the block as cut first: 'fixturegen register lib --cut sheath'"
    )]
    public void An_event_that_cannot_be_says_what_to_do(string job, string state, string remedy)
    {
        Register planned = Register.Empty.With(Sheath with { State = FixtureState.Planned });
        Assert.Equal(
            remedy,
            Assert
                .Single(
                    ShelfEvents.Apply(planned, "lib", new Noting(job, Enum.Parse<Happening>(state)), Today).Findings
                )
                .Remedy
        );
    }

    [Fact]
    public void The_newest_revision_that_is_not_scrapped_is_current()
    {
        Register register = Register
            .Empty.With(Sheath)
            .With(Sheath with { Revision = 2, State = FixtureState.Scrapped });
        Assert.Equal(1, register.Current("sheath")!.Revision);
        Assert.Null(register.Current("nobody"));
    }
}
