using System.Text;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

public class PanelScoreTests
{
    // A and B are joined; C stands by itself.
    private static readonly Plan Store = CaseList.Read(new MemoryStream(Encoding.UTF8.GetBytes("tag,lengths,lineUp\nA,12-12,1\nB,12,1\nC,12,2\n")), "cases.csv").Plan;

    [Theory]
    [InlineData("C/2! C/1", 1, 1)] // what is lifted after it was for no other leak found
    [InlineData("C/1 C/2!", 0, 1)]
    [InlineData("A/6 B/1!", 0, 1)] // one leak, sought on both sides of a joint
    [InlineData("A/6! B/3!", 2, 2)]
    [InlineData("A/6! B/1 B/3!", 1, 2)]
    [InlineData("A/1 C/1!", 1, 1)]
    [InlineData("C/1", 0, 0)]
    [InlineData("gone/1 gone/2! C/1!", 1, 2)] // taken out of the plan since
    public void Of_Visit_CountsLeaksBehindTheFirstPanelLiftedInTheirLineUp(string lifted, int right, int found)
    {
        var looks = lifted.Split(' ').Select((l, i) => Look(l.TrimEnd('!'), l.EndsWith('!'), i)).ToList();
        Assert.Equal(new PanelScore(right, found), PanelScore.Of(Store, [looks]));
        looks.Reverse();
        Assert.Equal(new PanelScore(2 * right, 2 * found), PanelScore.Of(Store, [looks, looks]));
    }

    private static PanelLook Look(string panel, bool leak, int minute) => new(panel, panel, leak, null, new DateTimeOffset(2026, 6, 4, 4, minute, 0, TimeSpan.Zero));
}
