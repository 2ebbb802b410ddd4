using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>A walk-in enlarged: walls, doorway, coils, its readings, and the ring that holds the leak.</summary>
internal static class WalkInDetail
{
    private const double Around = 24;

    /// <summary>The scale at which the walk-in fills a box.</summary>
    public static StandardScale ScaleOf(Plan plan, Fixture fixture, SheetBox box)
    {
        double w = fixture.Outline.Max(p => p.X) - fixture.Outline.Min(p => p.X), h = fixture.Outline.Max(p => p.Y) - fixture.Outline.Min(p => p.Y);
        return StandardScale.Fitting(plan.Units, w, h, Room(box).Width - Around, Room(box).Height - Around, 20);
    }

    /// <summary>Draws it.</summary>
    public static void Draw(
        SvgWriter svg, SheetBox box, Plan plan, NetSurvey net, Fixture fixture, LeakZone zone, string letter, double scale, Words words)
    {
        svg.Text(new(box.X + 2, box.Y + SheetStyle.TextLarge), SheetStyle.Heading.Fit(PlaceWords.Case(fixture), box.Width - 4), SheetStyle.Heading);
        var room = Room(box);
        var to = new PlanToSheet(scale, 0, FixtureShape.Middle(fixture.Outline), room.Middle);
        var only = plan with { Fixtures = [fixture], Drops = [.. plan.Drops.Where(d => d.Fixtures.Contains(fixture.Id))] };
        var d = new PlanDrawing(svg, only, to, room, words);
        var readings = net.Readings.Where(r => r.Reading.Place.Fixture == fixture.Id || r.Reading.Place.Room == fixture.Id).ToList();
        svg.Begin("plan", "plan", PlaceWords.Case(fixture));
        FixturesPass.Draw(d, filled: true);
        DropsPass.Draw(d);
        ReadingsPass.Draw(d, net with { Readings = readings });
        ZonesPass.DrawOne(d, zone, letter);
        d.Labels.Place();
        d.Labels.Draw(svg);
        svg.End();
        ScaleBar.Draw(svg, new(box.X + 4, box.Bottom - 9), scale, plan.Units, 90);
    }

    private static SheetBox Room(SheetBox box) => new(box.X, box.Y + 12, box.Width, box.Height - 22);
}
