namespace StoreMap.Routing;

/// <summary>An order of stops.</summary>
/// <param name="Order">Each stop's index once, from the first stop on.</param>
/// <param name="Length">Sum of the legs, with the return when the tour is closed.</param>
/// <param name="Steps">Search steps taken.</param>
/// <param name="CutShort">True when the search was stopped before its effort was spent.</param>
public sealed record Tour(IReadOnlyList<int> Order, double Length, long Steps, bool CutShort);
