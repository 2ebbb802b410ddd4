using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>What a reading asks of the person who took it.</summary>
public enum StopLevel
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>Leave and air the room.</summary>
    Leave,

    /// <summary>Out, touch no switch.</summary>
    Out,
}

/// <summary>The two readings at which work stops: the exposure limit, and a quarter of the flammable limit or the concentration limit,
/// whichever is lower. Limits after ASHRAE 34 and ISO 817 as published; a monitor is no personal alarm.</summary>
/// <param name="Gas">The refrigerant's designation.</param>
/// <param name="LeavePpm">From here on: leave and air the room.</param>
/// <param name="OutPpm">From here on: out, touch no switch.</param>
public sealed record StopWork(string Gas, double LeavePpm, double OutPpm)
{
    /// <summary>True when the gas burns, or may.</summary>
    public bool MayBurn { get; init; }

    /// <summary>The set points of a refrigerant; the lowest of all known ones when it is not known, ammonia apart: its smell
    /// and its rules leave nobody unaware of it, and 25 ppm would stop all other work.</summary>
    /// <param name="name">Designation, however written; may be null.</param>
    public static StopWork For(string? name)
    {
        if (Refrigerant.Find(name) is { } known) return Of(known);
        var all = Refrigerant.All.Where(r => r.Name != "R-717").Select(Of).ToList();
        return Lowest("unknown gas", all);
    }

    /// <summary>The set points where a reading is taken: at a fixture those of its refrigerant; elsewhere, and where that is not known, the
    /// lowest of the store's, any of which may be in the air.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="fixture">Id of the fixture; null for a room.</param>
    /// <param name="along">Metres along its front.</param>
    public static StopWork At(Plan plan, string? fixture, double along = 0)
    {
        if (plan.FindFixture(fixture) is { } at && Refrigerant.Find(plan.RefrigerantAt(at, along)) is { } own) return Of(own);
        var all = plan.Refrigerants.Select(Of).ToList();
        return all.Count == 0 ? For(null) : Lowest(string.Join(" or ", all.Select(s => s.Gas)), all);
    }

    /// <summary>What a reading asks for.</summary>
    /// <param name="ppm">The number shown.</param>
    public StopLevel Judge(double ppm) => ppm >= OutPpm ? StopLevel.Out : ppm >= LeavePpm ? StopLevel.Leave : StopLevel.None;

    /// <summary>What a reading asks for that may be over the monitor's range. A monitor that can't show a limit may be over it, so work stops:
    /// with a gas that burns as if the second set point were reached, for a spark is not taken back; with others as at the first.</summary>
    /// <param name="ppm">The number shown; over range the least that it can be.</param>
    /// <param name="isOverRange">True when the gas is over what the monitor shows.</param>
    public StopLevel Judge(double ppm, bool isOverRange) =>
        !isOverRange ? Judge(ppm) : MayBurn ? StopLevel.Out : Judge(Math.Max(ppm, LeavePpm));

    private static StopWork Lowest(string gas, List<StopWork> all) =>
        new(gas, all.Min(s => s.LeavePpm), all.Min(s => s.OutPpm)) { MayBurn = all.Exists(s => s.MayBurn) };

    private static StopWork Of(Refrigerant r) => new(r.Name, r.ExposureLimitPpm, Math.Min(r.ConcentrationLimitPpm, r.FlammableLimitPpm / 4 ?? double.PositiveInfinity))
    {
        MayBurn = r.FlammableLimitPpm is not null,
    };
}
