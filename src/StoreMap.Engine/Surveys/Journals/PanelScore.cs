using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>How the order of opening did: of the leaks confirmed, how many were behind the first panel lifted for them. A search begins with
/// the first panel lifted in a line-up at a visit, and with the next one after a leak was found there.</summary>
/// <param name="Right">Leaks behind the first panel lifted.</param>
/// <param name="Found">Leaks confirmed.</param>
public readonly record struct PanelScore(int Right, int Found)
{
    /// <summary>The score of some visits.</summary>
    /// <param name="plan">The store: its line-ups tell which panels were lifted for one leak. A fixture that it doesn't have stands by itself.</param>
    /// <param name="visits">Of each visit the panels lifted, in any order.</param>
    public static PanelScore Of(Plan plan, IEnumerable<IEnumerable<PanelLook>> visits)
    {
        var (right, found) = (0, 0);
        foreach (var lineUp in visits.SelectMany(v => v.GroupBy(l => LineUp(plan, l.Panel))))
        {
            var first = true;
            foreach (var look in lineUp.OrderBy(l => l.Time).ThenBy(l => l.Panel, StringComparer.Ordinal))
            {
                if (look.Leak) found++;
                if (look.Leak && first) right++;
                first = look.Leak;
            }
        }

        return new PanelScore(right, found);
    }

    private static string LineUp(Plan plan, string panel)
    {
        var fixture = panel[..Math.Max(0, panel.LastIndexOf('/'))];
        return plan.FindFixture(fixture)?.LineUp ?? fixture;
    }
}
