using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Service cases: along the staff side, which is the front that the plan gives them; the customer's side is glass.</summary>
internal static class ServiceCaseMethod
{
    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture) => FrontPass.Points(draft, fixture, "From the staff side.");
}
