using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>How a store is probed: steps, dwells, speeds and fixed times. Immutable; every value can be set, the defaults stand here
/// and nowhere else.</summary>
/// <remarks>Source of the defaults: common practice of the trade where docs/probe-points.md says so, else our own estimate.</remarks>
public sealed record Protocol
{
    /// <summary>Longest step along a front, round an island's base and of its zigzag, metres. The default is 4.5 ft.</summary>
    public double FrontStepMetres { get; init; } = 4.5 * LengthUnits.MetresPerFoot;

    /// <summary>Step of a close-in pass, metres. The default is 2 ft.</summary>
    public double CloseInStepMetres { get; init; } = 2 * LengthUnits.MetresPerFoot;

    /// <summary>How far a close-in pass reaches to either side of a hit, metres. The default is 6 ft: past both neighbouring coarse points.</summary>
    public double CloseInReachMetres { get; init; } = 6 * LengthUnits.MetresPerFoot;

    /// <summary>On door cases one door in this many is probed, and never fewer than one a section. The default is 3.</summary>
    public int DoorEvery { get; init; } = 3;

    /// <summary>Width of a door where the layout counts none, metres. The default is 30 in.</summary>
    public double DoorWidthMetres { get; init; } = 0.762;

    /// <summary>Longest distance between low and high points inside a walk-in, metres. The default is 5 m.</summary>
    public double WalkInStepMetres { get; init; } = 5;

    /// <summary>How far the feet stand in front of the tip, metres. The default is 0.5 m.</summary>
    public double StandOffMetres { get; init; } = 0.5;

    /// <summary>How far across an island the tip reaches from one side, metres. The default is 1.3 m.</summary>
    public double ReachMetres { get; init; } = 1.3;

    /// <summary>How far in front of a case its department's background is read, metres. The default is 1.8 m (6 ft).</summary>
    public double BackgroundOffMetres { get; init; } = 6 * LengthUnits.MetresPerFoot;

    /// <summary>A background point serves fixtures of the same room whose fronts come within this distance, metres. The default is 6 m.</summary>
    public double DepartmentReachMetres { get; init; } = 6;

    /// <summary>True when aerosol rooms are walked last; false when they are walked before their work starts, so that the order is free.</summary>
    public bool AerosolRoomsLast { get; init; } = true;

    /// <summary>True when equipment gets a checklist stop.</summary>
    public bool Checklist { get; init; } = true;

    /// <summary>Seconds from the tip to the reading. The default is 5 s. No dwell is shorter.</summary>
    public double MonitorDelaySeconds { get; init; } = 5;

    /// <summary>Seconds the tip is held at a point. The default is 10 s: the delay and a sensor's usual rise.</summary>
    public double DwellSeconds { get; init; } = 10;

    /// <summary>Seconds the tip is held at a coil. The default is 20 s.</summary>
    public double CoilDwellSeconds { get; init; } = 20;

    /// <summary>Seconds a background is watched. The default is 30 s.</summary>
    public double BackgroundDwellSeconds { get; init; } = 30;

    /// <summary>Seconds the tip is held at a close-in point. The default is 15 s.</summary>
    public double CloseInDwellSeconds { get; init; } = 15;

    /// <summary>Seconds to go through the checklist of one piece of equipment. The default is 300 s.</summary>
    public double ChecklistSeconds { get; init; } = 300;

    /// <summary>Walking speed with monitor and hose, metres a second. The default is 0.8 m/s.</summary>
    public double WalkingMetresPerSecond { get; init; } = 0.8;

    /// <summary>What each metre weighs extra that is walked along a line-up or island without probing it: an aisle walked again, or turning
    /// back along the line-up just probed. The default is 0.25: four metres walked again count as five. 0 takes plain metres.</summary>
    public double RewalkWeight { get; init; } = 0.25;

    /// <summary>Seconds to crack and shut a door. The default is 5 s.</summary>
    public double DoorSeconds { get; init; } = 5;

    /// <summary>Seconds to enter and leave a walk-in with its inside release tested. The default is 45 s.</summary>
    public double WalkInSeconds { get; init; } = 45;

    /// <summary>Seconds to set up and put away a ladder. The default is 120 s.</summary>
    public double LadderSeconds { get; init; } = 120;

    /// <summary>Minutes after the start of a defrost until the air is still and readings count as fans-off. The default is 5.</summary>
    public double DefrostSettleMinutes { get; init; } = 5;

    /// <summary>Longest wait for a room or area to be opened, minutes; a walk that comes earlier goes in outside its hours, with a warning.
    /// The default is 30.</summary>
    public double MostWaitMinutes { get; init; } = 30;

    /// <summary>Minutes a hit takes besides its close-in pass: agreed with the store, noted, photographed. The default is 10.</summary>
    public double HitMinutes { get; init; } = 10;

    /// <summary>Minutes to sign in and speak with the store. The default is 10.</summary>
    public double SignInMinutes { get; init; } = 10;

    /// <summary>Minutes of warm-up before the zero. The default is 5.</summary>
    public double WarmUpMinutes { get; init; } = 5;

    /// <summary>Minutes to zero the monitor: the dwell of the zero point, and again after each change of gas. The default is 2.</summary>
    public double ZeroMinutes { get; init; } = 2;

    /// <summary>Minutes to put everything back and check it. The default is 10.</summary>
    public double RestoreMinutes { get; init; } = 10;

    /// <summary>Minutes to write up and sign out. The default is 15.</summary>
    public double WriteUpMinutes { get; init; } = 15;

    /// <summary>The dwell asked for, but never shorter than the monitor's delay.</summary>
    public double AtLeastDelay(double seconds) => Math.Max(seconds, MonitorDelaySeconds);

    /// <summary>Seconds at a point for what is opened and climbed, the probing itself left out; a walk-in's entry
    /// stands on its group.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="point">A point of its draft.</param>
    public double HandlingSeconds(Plan plan, ProbePoint point) => point.Pass switch
    {
        ProbePass.Doors => DoorSeconds,
        ProbePass.Discharge or ProbePass.CloseIn when plan.FindFixture(point.Fixture)?.Kind == FixtureKind.DoorCase => DoorSeconds,
        ProbePass.Checklist when plan.Equipment.FirstOrDefault(e => e.Id == point.Equipment)?.Level is not (null or "floor") => LadderSeconds,
        _ => 0,
    };

    /// <summary>Refuses values that no walk can follow.</summary>
    /// <exception cref="RefusedInputException">A value is not finite, a step, speed or reach is not above 0, or a time is negative.</exception>
    public void Check()
    {
        var problems = new List<Problem>();
        Above(FrontStepMetres, "frontStep", 0.1);
        Above(CloseInStepMetres, "closeInStep", 0.05);
        Above(CloseInReachMetres, "closeInReach", 0);
        Above(DoorEvery, "doorEvery", 1);
        Above(DoorWidthMetres, "doorWidth", 0.2);
        Above(WalkInStepMetres, "walkInStep", 0.5);
        Above(StandOffMetres, "standOff", 0);
        Above(ReachMetres, "reach", 0);
        Above(BackgroundOffMetres, "backgroundOff", 0);
        Above(DepartmentReachMetres, "departmentReach", 0);
        Above(WalkingMetresPerSecond, "walkingSpeed", 0.05);
        Above(RewalkWeight, "rewalkWeight", 0);
        foreach (var (value, field) in new[]
        {
            (MonitorDelaySeconds, "monitorDelay"), (DwellSeconds, "dwell"), (CoilDwellSeconds, "coilDwell"),
            (BackgroundDwellSeconds, "backgroundDwell"), (CloseInDwellSeconds, "closeInDwell"), (ChecklistSeconds, "checklist"),
            (DoorSeconds, "door"), (WalkInSeconds, "walkIn"), (LadderSeconds, "ladder"), (SignInMinutes, "signIn"),
            (WarmUpMinutes, "warmUp"), (ZeroMinutes, "zero"), (RestoreMinutes, "restore"), (DefrostSettleMinutes, "defrostSettle"), (MostWaitMinutes, "mostWait"), (HitMinutes, "hit"), (WriteUpMinutes, "writeUp"),
        })
        {
            Above(value, field, 0);
        }

        if (problems.Count > 0) throw new RefusedInputException(problems);

        void Above(double value, string field, double least)
        {
            if (double.IsFinite(value) && value >= least) return;
            problems.Add(new(Severity.Error, null, "protocol", field, FormattableString.Invariant($"{value}"), "protocol-range",
                FormattableString.Invariant($"This value is {value}; it must be a number of at least {least}.")));
        }
    }
}
