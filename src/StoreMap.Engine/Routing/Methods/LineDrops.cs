using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Marks the point nearest to each line drop of a fixture: leaks gather where line sets come down.</summary>
internal static class LineDrops
{
    private const string Opening = "Line drop ";

    /// <summary>True for a point that stands for a line drop.</summary>
    public static bool Marked(ProbePoint point) => point.Note?.Contains(Opening, StringComparison.Ordinal) == true;

    /// <summary>True for the sentence that marks one.</summary>
    public static bool IsMark(string sentence) => sentence.StartsWith(Opening, StringComparison.Ordinal);

    public static List<ProbePoint> Mark(DraftBuilder draft, Fixture fixture, List<ProbePoint> points)
    {
        if (points.Count == 0 || fixture.Front is null) return points;
        foreach (var (drop, along, _) in PlanPlaces.DropsOver(draft.Plan, fixture))
        {
            var nearest = points.MinBy(p => Math.Abs(p.Along!.Value - along))!;
            var text = $"{Opening}{drop.Id} comes down here: hold the tip low a little longer.";
            points[points.IndexOf(nearest)] = nearest with { Note = nearest.Note is null ? text : $"{nearest.Note} {text}" };
        }

        return points;
    }
}
