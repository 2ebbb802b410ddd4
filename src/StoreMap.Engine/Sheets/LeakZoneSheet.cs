using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The leak-zone detail: one fixture at 1:20 to 1:50, what was read along it, where the leak sits, which panels to open in
/// which order, and the cautions for opening.</summary>
public static class LeakZoneSheet
{
    private const double Column = 107;
    private const double Gap = 3;
    private const double AxisRoom = 14;

    /// <summary>Draws a detail for each zone.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The survey with its backgrounds taken off.</param>
    /// <param name="located">Leak zones; those of unknown fixtures are left out.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <returns>One sheet per zone, in the order of the zones; empty when there is none.</returns>
    public static IReadOnlyList<Sheet> Draw(Plan plan, NetSurvey net, LocateResult located, SheetContext context)
    {
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        foreach (var (i, zone) in located.Zones.Index())
        {
            if (plan.FindFixture(zone.Fixture) is { } fixture) DrawOne(set, plan, net, located, fixture, zone, LeakLetters.Of(i), NameOf(i));
        }

        return set.Finish();
    }

    /// <summary>The name of a zone's sheet.</summary>
    internal static string NameOf(int index) => "leak-zone-" + LeakLetters.Of(index).ToLowerInvariant();

    private static void DrawOne(SheetSet set, Plan plan, NetSurvey net, LocateResult located, Fixture fixture, LeakZone zone, string letter, string name)
    {
        var words = set.Words;
        var frame = new PageFrame(set.PlanPaper, true);
        var head = new SheetHead(name, words.Say("detail.title", letter, fixture.Tag), words["detail.kind"]);
        var d = frame.Drawing;
        var column = Math.Min(Column, d.Width * 0.45);
        var titleBox = frame.TitleBlockBox(column);
        var notes = new SheetBox(d.Right - column + Gap, d.Y + Gap, column - Gap - PageFrame.MarkRoom, titleBox.Y - d.Y - (2 * Gap));
        var drawing = new SheetBox(d.X + Gap, d.Y + 6, d.Width - column - (2 * Gap), d.Height - 6 - Gap);
        var ruler = fixture.Front is null ? null : Ruler(plan, fixture, zone, drawing);
        var scale = ruler?.Scale ?? WalkInDetail.ScaleOf(plan, fixture, drawing);
        var svg = set.Begin(head, frame, titleBox, scale.Text, words.Say("detail.description", PlaceWords.Case(fixture), plan.Name, words.Chance(zone.Probability)));
        svg.Line(new(d.Right - column, d.Y), new(d.Right - column, d.Bottom), Paint.Line(SheetStyle.Narrow));
        if (ruler is null) WalkInDetail.Draw(svg, drawing, plan, net, fixture, zone, letter, scale.Denominator, words);
        else DrawCase(svg, drawing, plan, net, ruler, zone, words);
        svg.Begin("notes", "notes");
        var rest = FlowColumns.Fill(svg, [.. DetailNotes.Items(plan, net, located, fixture, zone, letter, words, set.Context)], [notes]);
        svg.End();
        set.AddText(head with { Name = head.Name + "-notes", Title = words.Say("page.notes-to", head.Title) }, rest);
    }

    private static SheetBox Inner(SheetBox box) => new(box.X + AxisRoom, box.Y, box.Width - AxisRoom - 4, box.Height);

    private static FrontRuler Ruler(Plan plan, Fixture fixture, LeakZone zone, SheetBox box) =>
        new(fixture, zone.Center ?? fixture.Front!.Length / 2, Inner(box), plan.Units);

    private static void DrawCase(SvgWriter svg, SheetBox box, Plan plan, NetSurvey net, FrontRuler ruler, LeakZone zone, Words words)
    {
        var fixture = ruler.Fixture;
        var readings = net.Readings.Where(r => r.Reading.Place.Fixture == fixture.Id && r.Reading.Place.Along is not null).ToList();
        svg.Text(new(box.X + 2, box.Y + SheetStyle.TextLarge), SheetStyle.Heading.Fit(PlaceWords.Case(fixture), box.Width - 4), SheetStyle.Heading);
        var strip = FrontStrip.HeightOf(ruler);
        var chartTop = box.Y + 16;
        var legend = DetailLegend.Draw(svg, new SheetBox(box.X + 2, box.Y, box.Width - 4, box.Height), words, readings, zone, fixture, plan);
        var chartHeight = Math.Clamp(box.Bottom - chartTop - strip - legend - 12, 40, 170);
        double left = ruler.XFromLeft(ruler.From), right = ruler.XFromLeft(ruler.To);
        ProfileChart.Draw(svg, new SheetBox(left, chartTop, right - left, chartHeight), ruler, zone, readings, words);
        FrontStrip.Draw(svg, new SheetPoint(left, chartTop + chartHeight + 8), right - left, ruler, plan, zone, words);
    }
}
