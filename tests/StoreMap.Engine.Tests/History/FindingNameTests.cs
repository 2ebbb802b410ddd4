using StoreMap.History;
using StoreMap.Surveys;

namespace StoreMap.Tests.History;

/// <summary>What people are told a finding is called.</summary>
public class FindingNameTests
{
    /// <summary>A leak confirmed behind a panel was listed as "C1/2 2026-06-04".</summary>
    [Theory]
    [InlineData("C1/2 2026-06-04", "27A panel 2, found 2026-06-04")]
    [InlineData("C9/2 2026-06-04", "C9/2 2026-06-04")]
    [InlineData("F-12", "F-12")]
    [InlineData("C1/2 June", "C1/2 June")]
    [InlineData("2026-06-04", "2026-06-04")]
    [InlineData("late /x 2026-06-04", "late /x 2026-06-04")]
    public void Of_IdOfAPanel_IsTagPanelAndDayAndOthersStay(string id, string name) => Assert.Equal(name, FindingName.Of(TestShop.Shop, id));
}
