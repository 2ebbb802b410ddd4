using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>Panels in words: those to lift, and those that were.</summary>
internal static class PanelText
{
    /// <summary>Panels in the order of opening.</summary>
    public static IReadOnlyList<PanelLine> Order(Plan plan, LocateResult result) => [.. result.Open.Select(id => Panel(plan, result, id)).OfType<PanelLine>()];

    /// <summary>Panels that were lifted.</summary>
    public static IReadOnlyList<LookLine> Looked(Plan plan, IEnumerable<PanelLook> looks) =>
        [.. looks.Select(l => new LookLine(l.Event, l.Panel, Title(plan, l.Panel), l.Leak, l.Component))];

    /// <summary>How the order of opening did at some visits; null when no leak was confirmed.</summary>
    public static string? Score(Plan plan, params IEnumerable<IReadOnlyList<PanelLook>> visits) =>
        PanelScore.Of(plan, visits) is { Found: > 0 } score ? $"First panel right: {score.Right} of {score.Found}" : null;

    private static PanelLine? Panel(Plan plan, LocateResult result, string id)
    {
        var zone = result.Zones.FirstOrDefault(z => z.Panels.Any(p => p.Id == id));
        if (zone is null || plan.FindFixture(zone.Fixture) is not { Front: { } front } fixture) return null;
        var panel = zone.Panels.First(p => p.Id == id);
        double a = fixture.FromLeft(panel.From), b = fixture.FromLeft(panel.To);
        var at = front.PointAt((panel.From + panel.To) / 2);
        return new PanelLine(
            id, Title(plan, id), $"{Say.Length(plan.Units, Math.Min(a, b))} to {Say.Length(plan.Units, Math.Max(a, b))} from the left, facing the case",
            Say.Chance(zone.Probability * panel.Probability), at.X, at.Y);
    }

    private static string Title(Plan plan, string id)
    {
        var slash = id.LastIndexOf('/');
        return plan.FindFixture(id[..slash]) is { } fixture
            ? $"{Say.Fixture(fixture)}, panel {id[(slash + 1)..]}{(fixture.PanelsFromRight ? " (numbered from the right end here)" : "")}" : id;
    }
}
