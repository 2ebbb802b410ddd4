using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>How a defrost meets the walk.</summary>
public enum TimedCheckKind
{
    /// <summary>The walk passes the circuit's points during it anyway.</summary>
    OnTheWay,

    /// <summary>The walk is left for it at the stated point and gone on with after it.</summary>
    Detour,

    /// <summary>No time for it on this walk.</summary>
    Missed,
}

/// <summary>A defrost that stops the fans during the visit: still air pinpoints, so its circuit is probed in it.</summary>
/// <param name="Kind">How it meets the walk.</param>
/// <param name="Circuit">Circuit id.</param>
/// <param name="Cooling"><c>electric</c> or <c>hot-gas</c>: the fans stop, readings count as fans-off.</param>
/// <param name="From">Store time at which it starts.</param>
/// <param name="To">Store time at which it ends.</param>
/// <param name="At">Store time at which probing begins; null when missed.</param>
/// <param name="After">Id of the point after which the walk is left; null unless a detour.</param>
/// <param name="Points">Ids of the circuit's points probed in it, in order; empty when missed.</param>
/// <param name="Metres">How much longer the walk gets.</param>
/// <param name="Minutes">How many minutes more, waiting included.</param>
public sealed record TimedCheck(
    TimedCheckKind Kind, string Circuit, string Cooling, TimeOnly From, TimeOnly To, TimeOnly? At, string? After, IReadOnlyList<string> Points,
    double Metres, double Minutes);

/// <summary>When things happen on a walk that begins at a stated time.</summary>
/// <param name="Begin">Store time of sign-in.</param>
/// <param name="End">Store time at which all is written up.</param>
/// <param name="Read">Store time at which each point has been read, in the route's order.</param>
/// <param name="Checks">Defrosts that stop fans during the walk, by start.</param>
public sealed record RouteClock(TimeOnly Begin, TimeOnly End, IReadOnlyList<TimeOnly> Read, IReadOnlyList<TimedCheck> Checks);

/// <summary>Minutes in all, with what the hits to be expected take.</summary>
/// <param name="ExpectedHits">Hits to be expected.</param>
/// <param name="MinutesPerHit">Minutes to close in on one and note it.</param>
/// <param name="Pace">Real time on earlier visits over planned time; 1 when nothing is known.</param>
/// <param name="Likely">Minutes with the hits expected, at that pace.</param>
/// <param name="BadNight">Minutes that one walk in twenty exceeds, by the number of hits.</param>
public sealed record RouteForecast(double ExpectedHits, double MinutesPerHit, double Pace, double Likely, double BadNight);
