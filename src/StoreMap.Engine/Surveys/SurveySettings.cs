namespace StoreMap.Surveys;

/// <summary>How a monitor set to one refrigerant reads another: true ppm = shown ppm · factor.</summary>
/// <param name="SetTo">The refrigerant the monitor was set to.</param>
/// <param name="Actual">The refrigerant in the air.</param>
/// <param name="Factor">Greater than 0; from the monitor's own table.</param>
public sealed record GasResponse(string SetTo, string Actual, double Factor)
{
    /// <summary>Smallest factor that is read.</summary>
    public const double LeastFactor = 0.001;

    /// <summary>Largest factor that is read.</summary>
    public const double MostFactor = 1000;
}

/// <summary>How readings are judged: action levels, noise, background. Defaults are in <see cref="SurveyDefaults"/> and explained in
/// docs/readings.md.</summary>
public sealed record SurveySettings
{
    /// <summary>Net ppm from which a reading is a hit. <value>The default is 2.</value></summary>
    public double ActionPpm { get; init; } = SurveyDefaults.ActionPpm;

    /// <summary>Net ppm from which a CO2 reading is a hit. <value>The default is 200 above the room.</value></summary>
    public double ActionCo2Ppm { get; init; } = SurveyDefaults.ActionCo2Ppm;

    /// <summary>Net action levels of single refrigerants, ppm, before the two above.</summary>
    public IReadOnlyDictionary<string, double> ActionByRefrigerant { get; init; } = new Dictionary<string, double>();

    /// <summary>Part of a reading that is noise beside the fixed part, standard deviation as a fraction. <value>The default is 0.05.</value></summary>
    public double NoiseFraction { get; init; } = SurveyDefaults.NoiseFraction;

    /// <summary>How fast a background wanders: standard deviation after one hour, ppm. <value>The default is 0.5.</value></summary>
    public double DriftPpmPerRootHour { get; init; } = SurveyDefaults.DriftPpmPerRootHour;

    /// <summary>The same for CO2. <value>The default is 100.</value></summary>
    public double DriftCo2PpmPerRootHour { get; init; } = SurveyDefaults.DriftCo2PpmPerRootHour;

    /// <summary>The monitors' response to other gases, after each monitor's own; empty means that a wrong setting leaves hit or no hit only.</summary>
    public IReadOnlyList<GasResponse> Responses { get; init; } = [];

    /// <summary>The action level of a refrigerant, net ppm, before the instrument's and the room's own limits.</summary>
    /// <param name="refrigerant">Null when unknown.</param>
    public double ActionFor(string? refrigerant)
    {
        if (refrigerant is not null && ActionByRefrigerant.TryGetValue(refrigerant, out var own)) return own;
        return AirChannel.IsCo2(refrigerant) ? ActionCo2Ppm : ActionPpm;
    }
}
