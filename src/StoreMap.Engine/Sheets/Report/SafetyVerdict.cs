using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>What the readings say of the air that people breathe.</summary>
internal enum SafetyLevel
{
    /// <summary>No usable reading of that air, or no limit to set it against.</summary>
    Unknown,

    /// <summary>All readings of that air under the limit.</summary>
    Under,

    /// <summary>A reading at or over the limit, or over the monitor's range.</summary>
    Over,
}

/// <summary>A reading set against the exposure limit of its refrigerant.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="LimitPpm">The 8-hour exposure limit, ppm.</param>
/// <param name="Gas">The refrigerant whose limit it is; null when none is known.</param>
internal sealed record LimitReading(NetReading Reading, double LimitPpm, string? Gas)
{
    /// <summary>Part of the limit.</summary>
    public double Share => Reading.Reading.Ppm / LimitPpm;

    /// <summary>True at or over the limit; a monitor over its range may show anything above, so it counts as over.</summary>
    public bool Over => Reading.Reading.Bound == ReadingBound.AtLeast || (Reading.Reading.Bound == ReadingBound.Exact && Reading.Reading.Ppm >= LimitPpm);
}

/// <summary>Is it safe? Readings of air that people breathe (rooms, aisles, inside walk-ins) are told apart from those at fixtures, where
/// staff reach in. "Under" is said on evidence alone: without a reading of breathed air the answer is "not known".</summary>
/// <param name="Breathed">The answer for breathed air.</param>
/// <param name="Highest">The breathed reading nearest to its limit, or farthest over it; null without one.</param>
/// <param name="LimitPpm">Lowest exposure limit of the store's refrigerants, ppm; null when none is known.</param>
/// <param name="ReachIn">Per fixture the worst reading at or over the limit at a place where staff reach in, worst first.</param>
/// <param name="HighestAtCase">The highest reading at a case; null without one.</param>
/// <param name="NotRead">Rooms and walk-ins of the plan without a reading of their air; null stands for the sales floor.</param>
internal sealed record SafetyVerdict(
    SafetyLevel Breathed, LimitReading? Highest, double? LimitPpm, IReadOnlyList<LimitReading> ReachIn, NetReading? HighestAtCase, IReadOnlyList<string?> NotRead)
{
    /// <summary>Judges a visit.</summary>
    public static SafetyVerdict Of(Plan plan, NetSurvey net)
    {
        var strictest = plan.Refrigerants.MinBy(g => g.ExposureLimitPpm);
        var lowest = strictest?.ExposureLimitPpm;
        // A number that tells only hit from no hit, or what was left in the hose, is no level of the air.
        var numbers = net.Readings.Where(r => !r.HitOnly && !r.CarryOver).ToList();
        var breathed = numbers.Where(r => IsBreathed(plan, r)).ToList();
        var against = strictest is null ? [] : breathed.Select(r => Against(plan, r, strictest)).ToList();
        var highest = against.OrderByDescending(r => r.Over).ThenByDescending(r => r.Share).FirstOrDefault();
        var level = highest is null ? SafetyLevel.Unknown : highest.Over ? SafetyLevel.Over : SafetyLevel.Under;
        if (level == SafetyLevel.Unknown && breathed.Any(r => r.Reading.Bound == ReadingBound.AtLeast)) level = SafetyLevel.Over;
        var cases = numbers.Except(breathed).ToList();
        var reachIn = cases.Where(r => lowest is not null || r.Reading.Bound == ReadingBound.AtLeast).Select(r => Against(plan, r, strictest)).Where(r => r.Over)
            .GroupBy(r => r.Reading.Reading.Place.Fixture).Select(g => g.MaxBy(r => (r.Reading.Reading.Bound == ReadingBound.AtLeast, r.Share))!)
            .OrderByDescending(r => r.Reading.Reading.Bound == ReadingBound.AtLeast).ThenByDescending(r => r.Share).ToList();
        var read = breathed.Select(r => RoomOf(plan, r)).ToHashSet();
        var rooms = plan.Rooms.Select(r => (string?)r.Id).Concat(plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).Select(f => (string?)f.Id)).Prepend(null);
        return new(level, highest, lowest, reachIn, cases.MaxBy(r => (r.Reading.Bound == ReadingBound.AtLeast, r.Reading.Ppm)), [.. rooms.Where(r => !read.Contains(r))]);
    }

    private static bool IsBreathed(Plan plan, NetReading r) => plan.FindFixture(r.Reading.Place.Fixture) is not { } fixture || fixture.Kind == FixtureKind.WalkIn;

    private static string? RoomOf(Plan plan, NetReading r) => plan.FindFixture(r.Reading.Place.Fixture)?.Id ?? r.Reading.Place.Room;

    /// <summary>At a fixture the limit is that of its refrigerant; in a room, where any of the store's may stand, the lowest.</summary>
    private static LimitReading Against(Plan plan, NetReading r, Refrigerant? strictest)
    {
        var own = plan.FindFixture(r.Reading.Place.Fixture) is { } fixture ? Refrigerant.Find(plan.RefrigerantAt(fixture, r.Reading.Place.Along ?? 0)) : null;
        var gas = own ?? strictest;
        return new(r, gas?.ExposureLimitPpm ?? double.PositiveInfinity, gas?.Name);
    }
}
