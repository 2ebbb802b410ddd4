using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Zones that rest on hits without numbers: bars, beeps, or a monitor set to another gas. The place stands, a strength does not.</summary>
internal static class HitOnlyZones
{
    /// <summary>The strength of such a zone.</summary>
    public const string Unknown = "unknown";

    /// <summary>The zone, its strength taken off when no reading at its fixture has a number.</summary>
    public static LeakZone Of(LeakZone zone, NetSurvey survey)
    {
        var own = survey.Readings.Where(r => r.Reading.Place.Fixture == zone.Fixture).ToList();
        return own.Count == 0 || !own.TrueForAll(r => r.HitOnly) ? zone : zone with
        {
            Strength = Unknown, StrengthLowKilogramsPerYear = 0, StrengthHighKilogramsPerYear = 0,
            Reason = zone.Reason + "; the monitor only told hit from no hit, so nothing is known of its strength",
        };
    }
}
