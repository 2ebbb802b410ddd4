using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>Calls the locator with the running test's cancellation.</summary>
internal static class Locating
{
    public static LocateResult Locate(Plan plan, NetSurvey survey, IReadOnlyList<LeakPrior>? history = null, LocateSettings? settings = null) =>
        LeakLocator.Locate(plan, survey, history ?? [], settings, null, TestContext.Current.CancellationToken);
}
