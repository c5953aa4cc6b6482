using FixtureGen.App.Library.Changes;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

public sealed class TimeLeftTest
{
    /// <summary>A steady pace of 2 s: by hand, what is left is 2 s for each.</summary>
    [Fact]
    public void A_steady_pace_goes_on()
    {
        TimeLeft left = new();
        for (int done = 1; done <= 10; done++)
        {
            double? told = left.Tell(2 * done, 10);
            Assert.Equal(done < 4 ? null : 2.0 * (10 - done), told);
        }
    }

    /// <summary>Four jobs of 5 s, then such of 1 s: once as many of these are done, the slow start is forgotten.</summary>
    [Fact]
    public void A_slow_start_is_forgotten()
    {
        TimeLeft left = new();
        double? told = null;
        double now = 0;
        for (int done = 1; done <= 8; done++)
        {
            told = left.Tell(now += done <= 4 ? 5 : 1, 100);
        }
        Assert.Equal(92, told);
    }
}
