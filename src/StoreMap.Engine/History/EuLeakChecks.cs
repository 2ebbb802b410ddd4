namespace StoreMap.History;

/// <summary>Intervals of leak checks under Regulation (EU) 2024/573, article 5, as a help to planning; the regulation and
/// national law come first. The lower limits of 5 t and 1 kg are from memory.</summary>
public static class EuLeakChecks
{
    /// <summary>Tonnes of CO2 equivalent of a charge.</summary>
    /// <param name="kilograms">Charge.</param>
    /// <param name="gwp">Global warming potential on the basis that the regulation asks for.</param>
    public static double TonnesCo2(double kilograms, double gwp) => kilograms * gwp / 1000;

    /// <summary>Months between leak checks; the stricter of both parts of a blend.</summary>
    /// <param name="tonnesCo2">Hydrofluorocarbons (annex I), tonnes of CO2 equivalent.</param>
    /// <param name="hfoKilograms">Unsaturated ones (annex II, section 1), kilograms.</param>
    /// <param name="detectionSystem">True when a leakage detection system watches the equipment.</param>
    /// <returns>3, 6 or 12, doubled with a detection system; null when no checks are asked for.</returns>
    public static int? IntervalMonths(double tonnesCo2, double hfoKilograms, bool detectionSystem)
    {
        int? months = tonnesCo2 >= 500 || hfoKilograms >= 100 ? 3
            : tonnesCo2 >= 50 || hfoKilograms >= 10 ? 6
            : tonnesCo2 >= 5 || hfoKilograms >= 1 ? 12
            : null;
        return detectionSystem ? 2 * months : months;
    }
}
