namespace StoreMap.Plans;

/// <summary>The time that passed on a visit between the readings at two probe points, one right after the other.</summary>
/// <param name="From">Probe point read first.</param>
/// <param name="To">Probe point read next.</param>
/// <param name="Seconds">Seconds between the two readings.</param>
public sealed record WalkedGap(string From, string To, double Seconds);
