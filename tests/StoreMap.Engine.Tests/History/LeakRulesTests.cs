using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Tests.History;

public class LeakRulesTests
{
    /// <summary>40 CFR 82.157 and 84.106: scope.</summary>
    [Theory]
    [InlineData("R-454C", 15, 2026, UsLeakRule.Part84)]
    [InlineData("R-454C", 14.9, 2026, UsLeakRule.None)]
    [InlineData("R-448A", 40, 2026, UsLeakRule.Part84)]
    [InlineData("R-448A", 40, 2025, UsLeakRule.None)]
    [InlineData("R-22", 40, 2026, UsLeakRule.None)]
    [InlineData("R-22", 50, 2026, UsLeakRule.Part82)]
    [InlineData("R-290", 5000, 2026, UsLeakRule.None)]
    [InlineData("R-744", 5000, 2026, UsLeakRule.None)]
    [InlineData("R-1234yf", 5000, 2026, UsLeakRule.None)]
    [InlineData("R-513A", 15, 2026, UsLeakRule.Part84)]
    [InlineData("R-455A", 15, 2026, UsLeakRule.Part84)]
    public void RuleFor_Appliance_IsThePublishedScope(string refrigerant, double pounds, int year, UsLeakRule rule) =>
        Assert.Equal(rule, UsLeakRules.RuleFor(Refrigerant.Find(refrigerant)!, pounds, new DateOnly(year, 6, 1)));

    /// <summary>40 CFR 82.157(g), 84.106(g), from memory.</summary>
    [Theory]
    [InlineData(600, 3, 4)]
    [InlineData(500, 3, 4)]
    [InlineData(300, 12, 1)]
    public void InspectionsAfterExceedance_ByCharge(double pounds, int months, int clean) =>
        Assert.Equal((months, clean), UsLeakRules.InspectionsAfterExceedance(pounds));

    /// <summary>40 CFR 84.108, from memory.</summary>
    [Theory]
    [InlineData(1500, 50)]
    [InlineData(400, 40)]
    public void InferredLossAlarm_IsFiftyPoundsOrATenth(double pounds, double alarm) =>
        Assert.Equal(alarm, UsLeakRules.InferredLossAlarmPounds(pounds), 12);

    /// <summary>Regulation (EU) 2024/573, article 5.</summary>
    [Theory]
    [InlineData(120, 3921.6, 470.6, 6, 12)]
    [InlineData(130, 3921.6, 509.8, 3, 6)]
    [InlineData(1, 3921.6, 3.9, null, null)]
    public void IntervalMonths_R404A_FollowsTheTonnage(double kilograms, double gwp, double tonnes, int? months, int? withSystem)
    {
        var actual = EuLeakChecks.TonnesCo2(kilograms, gwp);
        Assert.Equal(tonnes, Math.Round(actual, 1));
        Assert.Equal(months, EuLeakChecks.IntervalMonths(actual, 0, false));
        Assert.Equal(withSystem, EuLeakChecks.IntervalMonths(actual, 0, true));
    }

    [Fact]
    public void IntervalMonths_Blend_TakesTheStricterPart()
    {
        // 400 kg R-513A: 44 % R-134a is 251.7 t (6 months), 56 % R-1234yf is 224 kg (3 months).
        var tonnes = EuLeakChecks.TonnesCo2(400 * 0.44, 1430);
        Assert.Equal(251.7, Math.Round(tonnes, 1));
        Assert.Equal(6, EuLeakChecks.IntervalMonths(tonnes, 0, false));
        Assert.Equal(3, EuLeakChecks.IntervalMonths(tonnes, 400 * 0.56, false));
    }
}
