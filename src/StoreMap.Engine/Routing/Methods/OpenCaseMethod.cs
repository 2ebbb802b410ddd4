using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Open multideck cases: along the front at the lip, low in the case.</summary>
internal static class OpenCaseMethod
{
    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture) => FrontPass.Points(draft, fixture, null);
}
