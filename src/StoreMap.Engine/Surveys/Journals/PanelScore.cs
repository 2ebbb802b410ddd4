namespace StoreMap.Surveys;

/// <summary>How the order of opening did: of the cases in which a leak was confirmed at a visit, in how many it was behind the first panel
/// lifted there.</summary>
/// <param name="Right">Cases in which the first panel lifted had the leak.</param>
/// <param name="Found">Cases in which a leak was confirmed; a case counts once a visit.</param>
public readonly record struct PanelScore(int Right, int Found)
{
    /// <summary>The score of some visits.</summary>
    /// <param name="visits">Of each visit the panels lifted, in any order.</param>
    public static PanelScore Of(IEnumerable<IEnumerable<PanelLook>> visits)
    {
        var found = visits.SelectMany(v => v.GroupBy(l => l.Panel[..Math.Max(0, l.Panel.LastIndexOf('/'))]).Where(g => g.Any(l => l.Leak))).ToList();
        return new PanelScore(found.Count(g => g.OrderBy(l => l.Time).First().Leak), found.Count);
    }
}
