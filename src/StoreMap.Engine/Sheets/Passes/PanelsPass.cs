using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The panels to lift, numbered in the order of opening: a band across the case, the likelier the fuller, with its number in a disc; tags of cases have corners.</summary>
internal static class PanelsPass
{
    /// <summary>How far a band reaches into the case from its front, metres.</summary>
    private const double DepthMetres = 0.75;

    /// <summary>Draws the first panels of the order.</summary>
    /// <param name="d">The drawing.</param>
    /// <param name="located">Zones and the order of opening.</param>
    /// <param name="most">Numbered panels at most; what comes later is in the list beside the plan.</param>
    public static void Draw(PlanDrawing d, LocateResult located, int most)
    {
        d.Svg.Begin("panels", "panels", d.Words["plan.panels"]);
        foreach (var (i, id) in located.Open.Take(most).Index())
        {
            var zone = located.Zones.FirstOrDefault(z => z.Panels.Any(p => p.Id == id));
            if (zone is null || d.Plan.FindFixture(zone.Fixture) is not { Front: { } front } fixture) continue;
            var panel = zone.Panels.First(p => p.Id == id);
            d.Svg.Begin("panel-" + id, "panel", d.Words.Say("plan.panel", i + 1, id));
            var middle = DrawOne(d, fixture, front, panel, zone.Probability * panel.Probability);
            d.Svg.End();
            AddLabel(d, middle, d.To.Direction(fixture.OutwardAt((panel.From + panel.To) / 2)), i + 1);
        }

        d.Svg.End();
    }

    private static SheetPoint DrawOne(PlanDrawing d, Fixture fixture, PlanLine front, PanelChance panel, double chance)
    {
        SheetPoint Corner(double along, double depth) => d.To.Point(front.PointAt(along)) + (d.To.Direction(fixture.OutwardAt(along)) * -d.To.Length(depth));
        double from = panel.From + 0.03, to = panel.To - 0.03;
        SheetPoint[] corners = [Corner(from, 0), Corner(to, 0), Corner(to, DepthMetres), Corner(from, DepthMetres)];
        d.Svg.Polygon(corners, new Paint(SheetStyle.Vermilion, SheetStyle.Ink, SheetStyle.Narrow, Opacity: Math.Round(0.25 + (0.6 * Math.Clamp(chance, 0, 1)), 2)));
        return (corners[0] + corners[1]) * 0.5;
    }

    private static void AddLabel(PlanDrawing d, SheetPoint anchor, SheetPoint outward, int number)
    {
        var label = new PlanLabel
        {
            Lines = [Numbers.Whole(number)], Style = SheetStyle.SmallBold, Anchor = anchor, Priority = LabelPriority.Zone - number, Layer = "labels-panels",
            Border = SheetStyle.Ink, Round = true,
        };
        d.Labels.Add(label with { Spots = [.. LabelSpots.Outward(label, outward, 3, 3), .. LabelSpots.Rings(label, 4, 7, 11)] });
    }
}
