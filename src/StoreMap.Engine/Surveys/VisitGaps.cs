using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>How long a visit really took from point to point.</summary>
public static class VisitGaps
{
    /// <summary>The steps between readings at probe points that follow each other. Several readings at one point count as one, at the last.</summary>
    public static IReadOnlyList<WalkedGap> Of(Survey survey)
    {
        var gaps = new List<WalkedGap>();
        for (var i = 1; i < survey.Readings.Count; i++)
        {
            var (before, now) = (survey.Readings[i - 1], survey.Readings[i]);
            if (before.Place.Point is { } from && now.Place.Point is { } to && from != to) gaps.Add(new(from, to, (now.Time - before.Time).TotalSeconds));
        }

        return gaps;
    }
}
