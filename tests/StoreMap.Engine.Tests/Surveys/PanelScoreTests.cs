using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

public class PanelScoreTests
{
    [Fact]
    public void Of_TwoVisits_CountsCasesWithALeakAndThoseWhoseFirstPanelHadIt()
    {
        PanelLook[] first = [Look("C1/2", true, 5), Look("C1/1", false, 3), Look("C2/1", true, 1), Look("C3/1", false, 2)];
        PanelLook[] second = [Look("C1/2", true, 1), Look("C1/3", false, 2)];
        Assert.Equal(new PanelScore(2, 3), PanelScore.Of([first, second]));
        Assert.Equal(new PanelScore(0, 0), PanelScore.Of([[Look("C1/1", false, 1)]]));
    }

    private static PanelLook Look(string panel, bool leak, int minute) => new(panel, panel, leak, null, new DateTimeOffset(2026, 6, 4, 4, minute, 0, TimeSpan.Zero));
}
