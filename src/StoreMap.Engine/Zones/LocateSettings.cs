using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>A panel that was lifted and what was found; evidence for the order of what is left.</summary>
/// <param name="Panel">Panel id, such as <c>C3/6</c>.</param>
/// <param name="LeakFound">True when a leak was confirmed behind it (bubbles, oil, a detector at the joint).</param>
/// <param name="Component">What leaks, as noted; null where it was not, or nothing was found.</param>
public sealed record PanelCheck(string Panel, bool LeakFound, string? Component = null)
{
    /// <summary>What a look behind a panel says.</summary>
    public static PanelCheck Of(PanelLook look) => new(look.Panel, look.Leak, look.Component);
}

/// <summary>What the locator assumes before it sees a reading. Immutable; the defaults and their sources are in docs/zones.md.</summary>
public sealed record LocateSettings
{
    /// <summary>Expected leaks per metre of case. The default, 0.003, is about one leak in a hundred sections of 12 ft.</summary>
    public double LeaksPerMetre { get; init; } = 0.003;

    /// <summary>Expected leaks per walk-in. Default 0.03.</summary>
    public double LeaksPerWalkIn { get; init; } = 0.03;

    /// <summary>Factor on the expectation of a further leak in a line-up that has one: leaks come together. Default 4.</summary>
    public double AnotherLeakFactor { get; init; } = 4;

    /// <summary>Expected leaks outside the cases near a hit, as a share of the expected leaks inside them. Default 0.2 (judgement).</summary>
    public double ElsewhereShare { get; init; } = 0.2;

    /// <summary>Odds at a drop, where line sets come down, against plain case. Default 3 (common practice: leaks gather there).</summary>
    public double DropWeight { get; init; } = 3;

    /// <summary>Odds at the valve end against plain case. Default 2.5.</summary>
    public double ValveEndWeight { get; init; } = 2.5;

    /// <summary>Odds at a drain against plain case. Default 1.5.</summary>
    public double DrainWeight { get; init; } = 1.5;

    /// <summary>Odds at a section joint against plain case. Default 1.5.</summary>
    public double JointWeight { get; init; } = 1.5;

    /// <summary>Odds of a meat case against another. Default 1.5 (common practice).</summary>
    public double MeatWeight { get; init; } = 1.5;

    /// <summary>How far a raised place reaches, metres (one standard deviation). Default 0.4.</summary>
    public double PlaceReachMetres { get; init; } = 0.4;

    /// <summary>Probability that a zone's interval holds the leak. Default 0.9.</summary>
    public double Level { get; init; } = 0.9;

    /// <summary>Zones less probable than this are left out. Default 0.05.</summary>
    public double LeastZoneProbability { get; init; } = 0.05;

    /// <summary>Chance that a lifted panel hides its leak from the technician. Default 0.15.</summary>
    public double PanelMissChance { get; init; } = 0.15;

    /// <summary>Panels lifted so far.</summary>
    public IReadOnlyList<PanelCheck> Checked { get; init; } = [];

    /// <summary>Minutes for one more probe point nearby. Default 0.75.</summary>
    public double ProbeMinutes { get; init; } = 0.75;

    /// <summary>Minutes to have the fans stopped and the air come to rest. Default 15.</summary>
    public double FansOffMinutes { get; init; } = 15;
}
