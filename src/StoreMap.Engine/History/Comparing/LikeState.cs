using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>What must agree before two readings are compared: air, cooling, cover, door, kind of spot and gas.</summary>
/// <param name="Air">Fans on, off or defrost.</param>
/// <param name="Cooling">As known; with fans on and nothing said it is on.</param>
/// <param name="Cover">As known; nothing said means none.</param>
/// <param name="Door">As known; nothing said means cracked, as the method has it.</param>
/// <param name="Spot">Kind of spot in words.</param>
/// <param name="Gas">The refrigerant; empty when unknown.</param>
/// <param name="HitOnly">True when only hit or no hit is known, which compares with nothing.</param>
internal readonly record struct LikeState(AirState Air, string Cooling, string Cover, string Door, string Spot, string Gas, bool HitOnly)
{
    private string AirWords => Air switch { AirState.FansOn => "fans on", AirState.FansOff => "fans off", _ => "defrost" };

    public static LikeState Of(Plan plan, NetReading net, Fixture? fixture)
    {
        var reading = net.Reading;
        var detail = reading.Detail;
        var gas = reading.Gas ?? (fixture is null ? null : plan.RefrigerantAt(fixture, reading.Place.Along ?? 0));
        return new LikeState(
            reading.Air, detail?.Cooling ?? (reading.Air == AirState.FansOn ? "on" : "not said"), detail?.Cover ?? "none",
            detail?.Door ?? "cracked", SpotWords(reading.Spot), gas ?? "", net.HitOnly);
    }

    /// <summary>How many things differ.</summary>
    public int Distance(LikeState other) => Differences(default, other, default).Count;

    /// <summary>What differs, such as <c>fans off 2026-06-10, fans on 2026-07-09</c>.</summary>
    public List<string> Differences(DateOnly mine, LikeState other, DateOnly its)
    {
        List<string> differences = [];
        if (Air != other.Air) Add(AirWords, other.AirWords);
        else if (Cooling != other.Cooling) Add($"cooling {Cooling}", $"cooling {other.Cooling}");
        if (Cover != other.Cover) Add($"cover {Cover}", $"cover {other.Cover}");
        if (Door != other.Door) Add($"door {Door}", $"door {other.Door}");
        if (Spot != other.Spot) Add(Spot, other.Spot);
        if (Gas != other.Gas) Add(Gas.Length > 0 ? Gas : "gas not known", other.Gas.Length > 0 ? other.Gas : "gas not known");
        if (HitOnly || other.HitOnly)
            differences.Add($"hit or no hit only {Words.Dates(HitOnly && other.HitOnly ? [mine, its] : HitOnly ? [mine] : [its])}");
        return differences;

        void Add(string a, string b) => differences.Add($"{a} {Words.Date(mine)}, {b} {Words.Date(its)}");
    }

    /// <summary>A fixed order, fans on first, so that choices never depend on the order of readings.</summary>
    public string SortKey => $"{(int)Air} {Spot} {Cooling} {Cover} {Door} {Gas}";

    private static string SpotWords(Spot? spot) => spot switch
    {
        null or Plans.Spot.Front or Plans.Spot.Return or Plans.Spot.DoorGap => "at the front",
        Plans.Spot.Deck or Plans.Spot.CoilEnd or Plans.Spot.ValveEnd => "inside the case",
        Plans.Spot.KickPlate or Plans.Spot.Perimeter or Plans.Spot.Drain => "at the base",
        Plans.Spot.Discharge => "in discharge air",
        Plans.Spot.LineDrop => "at the drop",
        Plans.Spot.Ceiling => "at the ceiling",
        _ => "at a joint",
    };
}
