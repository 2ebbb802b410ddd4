using System.Runtime.Versioning;
using StoreMap.Surveys;
using StoreMap.Web;
using StoreMap.Web.Surveying;

namespace StoreMap.Tests;

/// <summary>What is typed at the number pad or from paper, and what it asks for.</summary>
[SupportedOSPlatform("browser")]
public sealed class ReadingTextTests
{
    private static readonly StopWork R448A = StopWork.For("R-448A");

    [Theory]
    [InlineData("500", 500, true)]
    [InlineData("501", 500, false)]
    [InlineData(">500", 500, true)]
    [InlineData(">900", 500, false)]
    [InlineData("<1", 0.5, true)]
    [InlineData("", 500, false)]
    public void IsReading_BeyondTheMonitorsRange_IsNone(string text, double range, bool reading) => Assert.Equal(reading, ReadingText.IsReading(text, range));

    [Theory]
    [InlineData("900", "900 is more than the monitor shows (500 ppm)", true)]
    [InlineData(">900", ">900 is more than the monitor shows (500 ppm)", true)]
    [InlineData(">", "> needs a number above 0, such as >500", true)]
    [InlineData(">0", "> needs a number above 0, such as >500", false)]
    [InlineData("<", "< needs a number above 0, such as <1", false)]
    [InlineData(".", ". is no number yet", false)]
    [InlineData("480", null, false)]
    public void Missing_OfWhatIsTyped_IsToldWithAKeyForOver(string text, string? told, bool key)
    {
        Assert.Equal(told, ReadingText.Missing(text, 500));
        Assert.Equal(key, ReadingText.IsNearOver(text, 500));
    }

    /// <summary>A monitor that ends at 500 ppm can't show the limit of 860 ppm.</summary>
    [Theory]
    [InlineData("480", null)]
    [InlineData(">500", "That is over what the monitor shows and may be above the limit of 860 ppm: ")]
    [InlineData("500", "That is over what the monitor shows and may be above the limit of 860 ppm: ")]
    public void AfterStop_OverARangeUnderTheLimit_IsTakenAsOverIt(string text, string? asks) =>
        Assert.Equal(asks, Begin(Say.AfterStop(R448A, ReadingText.Number(text), ReadingText.IsOver(text, 500))));

    [Fact]
    public void AfterStop_OverARangeAboveTheLimit_IsAtTheLevel() =>
        Assert.Equal("That is at a stop-work level: ", Begin(Say.AfterStop(R448A, 1000, true)));

    [Fact]
    public void WhyStopped_OverARangeUnderTheLimit_DoesNotSayThatTheLimitWasRead()
    {
        StoppedWork Stop(double ppm, StopLevel level) => new(DateTimeOffset.UnixEpoch, "R-448A", ppm, level) { IsOverRange = true };
        Assert.Equal("Over what the monitor shows, 500 ppm: it may be above the limit of 860 ppm", Say.WhyStopped(Stop(500, StopLevel.Leave), R448A));
        Assert.Equal("At or above 860 ppm", Say.WhyStopped(Stop(1000, StopLevel.Leave), R448A));
    }

    private static string? Begin(string? asks) => asks?[..(asks.IndexOf(':', StringComparison.Ordinal) + 2)];
}
