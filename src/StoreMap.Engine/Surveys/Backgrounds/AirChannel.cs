namespace StoreMap.Surveys;

/// <summary>Readings that share one background: the air of one space, shown by one monitor on one kind of gas.</summary>
/// <param name="Space">Room or walk-in id; null for the sales floor.</param>
/// <param name="Instrument">Instrument id.</param>
/// <param name="Period">How often the monitor had been zeroed before: levels before and after a zeroing are unrelated.</param>
/// <param name="Co2">True for CO2, which every room's air holds.</param>
internal readonly record struct AirChannel(string? Space, string Instrument, int Period, bool Co2)
{
    /// <summary>The channel of a reading whose monitor was set to a refrigerant.</summary>
    public static AirChannel Of(Survey survey, Reading reading, string? set)
    {
        var instrument = survey.InstrumentOf(reading).Id;
        var period = survey.Zeroed.Count(z => z.Time <= reading.Time && (z.Instrument ?? survey.Instruments[0].Id) == instrument);
        return new AirChannel(reading.Place.Room, instrument, period, IsCo2(set));
    }

    /// <summary>True for R-744, also written CO2.</summary>
    public static bool IsCo2(string? refrigerant) => refrigerant is "R-744" or "CO2";
}
