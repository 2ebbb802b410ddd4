using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>One visit as history takes it: net readings and what was located from them.</summary>
/// <param name="Survey">The survey, backgrounds taken off.</param>
/// <param name="Result">What was located.</param>
/// <param name="Points">The probe points, by which checklist stops at equipment are known; may be empty.</param>
public sealed record SurveyVisit(NetSurvey Survey, LocateResult Result, IReadOnlyList<ProbePoint>? Points = null)
{
    /// <summary>The visit's date: that of its start, in the store's time.</summary>
    public DateOnly Date => DateOnly.FromDateTime(Survey.Survey.Start.DateTime);
}
