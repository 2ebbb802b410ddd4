using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Racks, condensers, valve stations: a square with the first letters of the kind, and a label.</summary>
internal static class EquipmentPass
{
    private const double Half = 1.5;

    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Equipment.Count == 0) return;
        d.Svg.Begin("equipment", "equipment", d.Words["legend.equipment"]);
        foreach (var item in d.Plan.Equipment)
        {
            var at = d.To.Point(item.At);
            d.Svg.Begin("equipment-" + item.Id, "equipment-item", $"{d.Words["equipment." + item.Kind.Kebab()]} {item.Id}, {d.Words.Level(item.Level)}");
            Symbol(d.Svg, at);
            d.Svg.End();
            d.Labels.Space.Block(new SheetBox(at.X - Half, at.Y - Half, 2 * Half, 2 * Half));
            var label = new PlanLabel
            {
                Lines = [item.Level is "floor" ? item.Id : $"{item.Id} ({d.Words.Level(item.Level)})"], Style = SheetStyle.Small, Anchor = at, Priority = LabelPriority.Equipment, Layer = "labels-equipment",
                Key = d.Words.Say("key.equipment", item.Id, d.Words["equipment." + item.Kind.Kebab()], d.Words.Level(item.Level)),
            };
            d.Labels.Add(label with { Spots = [.. LabelSpots.Around(label, Half + 0.4), .. LabelSpots.Rings(label, 4, 8, 12)] });
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Equipment);
    }

    public static void Symbol(SvgWriter svg, SheetPoint at)
    {
        svg.Rectangle(new SheetBox(at.X - Half, at.Y - Half, 2 * Half, 2 * Half), new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Medium));
        svg.Line(new(at.X - Half, at.Y + Half), new(at.X + Half, at.Y - Half), Paint.Line(SheetStyle.Narrow));
    }
}
