namespace StoreMap.Surveys;

/// <summary>Readings that share one background: the air of one space, shown by one monitor on one kind of gas.</summary>
/// <param name="Space">Room or walk-in id; null for the sales floor.</param>
/// <param name="Instrument">Instrument id.</param>
/// <param name="Co2">True for CO2, which every room's air holds.</param>
internal readonly record struct AirChannel(string? Space, string Instrument, bool Co2)
{
    /// <summary>True for R-744, also written CO2.</summary>
    public static bool IsCo2(string? refrigerant) => refrigerant is "R-744" or "CO2";
}
