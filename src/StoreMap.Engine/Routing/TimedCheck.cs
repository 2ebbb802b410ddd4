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
/// <param name="Visits">Rooms and areas with hours, where the walk enters them, in walking order.</param>
public sealed record RouteClock(TimeOnly Begin, TimeOnly End, IReadOnlyList<TimeOnly> Read, IReadOnlyList<TimedCheck> Checks, IReadOnlyList<TimedVisit> Visits)
{
    /// <summary>What changing the order for hours and defrosts costs and saves; null when the order is the usual one.</summary>
    public TimedChange? Change { get; init; }
}

/// <summary>How a walk meets the hours of a place.</summary>
public enum TimedVisitKind
{
    /// <summary>It comes while the place may be entered, and leaves in time.</summary>
    Met,

    /// <summary>It comes early and waits.</summary>
    Wait,

    /// <summary>It comes outside the hours, too far for a wait, or does not get done in them: to be agreed with the store.</summary>
    Outside,
}

/// <summary>A room or area with hours, entered on the walk.</summary>
/// <param name="Kind">How the walk meets its hours.</param>
/// <param name="Place">The room or area whose hours bind, the first where several do.</param>
/// <param name="Before">Id of the first point in it.</param>
/// <param name="At">Store time at which the walk gets there.</param>
/// <param name="WaitMinutes">Minutes to wait there; 0 unless a wait.</param>
public sealed record TimedVisit(TimedVisitKind Kind, TimedPlace Place, string Before, TimeOnly At, double WaitMinutes);

/// <summary>An order changed for the time of day.</summary>
/// <param name="Metres">How much longer the walk got; negative when shorter.</param>
/// <param name="MinutesSaved">Minutes earlier done than in the usual order with its waits and detours; negative when the usual order is quicker but
/// outside hours, or misses a defrost.</param>
/// <param name="OutsideBefore">Entries outside hours in the usual order.</param>
public sealed record TimedChange(double Metres, double MinutesSaved, int OutsideBefore);

/// <summary>Minutes in all, with what the hits to be expected take.</summary>
/// <param name="ExpectedHits">Hits to be expected.</param>
/// <param name="MinutesPerHit">Minutes to close in on one and note it.</param>
/// <param name="Pace">Real time on earlier visits over planned time; 1 when nothing is known.</param>
/// <param name="Likely">Minutes with the hits expected, at that pace.</param>
/// <param name="BadNight">Minutes that one walk in twenty exceeds, by the number of hits.</param>
public sealed record RouteForecast(double ExpectedHits, double MinutesPerHit, double Pace, double Likely, double BadNight);
