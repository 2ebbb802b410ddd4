using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>Readings: a dot each, its number beside it when gas was seen, a ring round hits; "≥" where the monitor was over range. Where
/// several fall on one dot, the number is the highest, and other hits in the same air follow it, counted where there are many.</summary>
internal static class ReadingsPass
{
    private const double HitRing = 1.35;
    private const int MostNumbers = 3;

    public static void Draw(PlanDrawing d, NetSurvey survey)
    {
        var spots = survey.Readings
            .GroupBy(r => (X: Math.Round(d.To.Point(r.Reading.Place.At).X), Y: Math.Round(d.To.Point(r.Reading.Place.At).Y)))
            .Select(g => g.OrderByDescending(Rank).ToList())
            .ToList();
        d.Svg.Begin("readings", "readings", d.Words["plan.readings"]);
        foreach (var spot in spots.OrderBy(s => Rank(s[0])))
        {
            var r = spot[0];
            var at = d.To.Point(r.Reading.Place.At);
            var others = spot.Skip(1).Where(o => o.IsHit && !o.HitOnly && o.Reading.Air == r.Reading.Air).ToList();
            d.Svg.Begin(null, r.IsHit ? "reading hit" : "reading", Describe(d, r, others));
            Symbol(d.Svg, at, r);
            d.Svg.End();
            d.Uses(r.IsHit ? LegendSymbol.ReadingHit : Shown(r) ? LegendSymbol.ReadingSeen : LegendSymbol.ReadingQuiet);
            if (spot.Any(s => s.Reading.Air != AirState.FansOn)) d.Uses(LegendSymbol.ReadingStill);
            if (others.Count > 0) d.Uses(LegendSymbol.ReadingTwo);
            if (r.Bound == ReadingBound.AtLeast && !r.HitOnly) d.Uses(LegendSymbol.ReadingOver);
            var half = r.IsHit ? HitRing : 0.6;
            d.Labels.Space.Block(new SheetBox(at.X - half, at.Y - half, 2 * half, 2 * half));
            if (Shown(r) && !r.HitOnly) AddLabel(d, r, others, at);
        }

        d.Svg.End();
    }

    /// <summary>The number on the map: net ppm, with "≥" for a reading that is only a lower bound.</summary>
    public static string Text(NetReading r) => (r.Bound == ReadingBound.AtLeast ? "≥" : "") + Numbers.Ppm(Math.Max(0, r.NetPpm));

    /// <summary>True when the reading shows gas: at or above the detection level.</summary>
    public static bool Shown(NetReading r) => r.Bound != ReadingBound.Below && r.NetPpm >= r.DetectionPpm;

    public static void Symbol(SvgWriter svg, SheetPoint at, NetReading r)
    {
        if (r.IsHit) svg.Circle(at, HitRing, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Medium));
        if (r.Reading.Air == AirState.FansOn)
        {
            var paint = Shown(r) ? Paint.Solid(SheetStyle.Ink) : new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow);
            svg.Circle(at, Shown(r) ? 0.7 : 0.6, paint);
        }
        else
        {
            var paint = Shown(r) ? Paint.Solid(SheetStyle.Ink) : new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Hair);
            svg.Rectangle(new SheetBox(at.X - 0.6, at.Y - 0.6, 1.2, 1.2), paint);
        }
    }

    private static double Rank(NetReading r) => Shown(r) ? r.NetPpm : r.NetPpm - 1e6;

    private static void AddLabel(PlanDrawing d, NetReading r, List<NetReading> others, SheetPoint at)
    {
        var outward = Outward(d, r);
        var label = new PlanLabel
        {
            Lines = [Numbered(d, [r, .. others])], Style = r.IsHit ? SheetStyle.SmallBold : SheetStyle.Small, Anchor = at,
            Priority = r.IsHit ? LabelPriority.Hit + Math.Min(9, r.NetPpm / 1000) : LabelPriority.Reading + Math.Min(9, r.NetPpm),
            Layer = "labels-readings", Key = Describe(d, r, others),
        };
        var gap = r.IsHit ? HitRing + 0.4 : 0.9;
        var beside = outward is { } o ? LabelSpots.Outward(label, o, gap, 3) : [];
        d.Labels.Add(label with { Spots = [.. beside, .. LabelSpots.Around(label, gap), .. LabelSpots.Rings(label, 3, 5, 8, 12)] });
    }

    // The highest, and how many more there are: the record has each.
    private static string Numbered(PlanDrawing d, List<NetReading> readings)
    {
        var shown = string.Join(" & ", readings.Take(MostNumbers).Select(Text));
        return readings.Count <= MostNumbers ? shown : d.Words.Say("plan.more-readings", shown, Sheets.Numbers.Whole(readings.Count - MostNumbers));
    }

    private static SheetPoint? Outward(PlanDrawing d, NetReading r)
    {
        if (d.Plan.FindFixture(r.Reading.Place.Fixture) is not { Front: not null } fixture || r.Reading.Place.Along is not { } along) return null;
        var outward = d.To.Direction(fixture.OutwardAt(along));
        return r.Reading.Place.OnBack ? outward * -1 : outward;
    }

    private static string Describe(PlanDrawing d, NetReading r, List<NetReading> others) => string.Join("; ", others.Prepend(r).Select(o => Describe(d, o)));

    private static string Describe(PlanDrawing d, NetReading r)
    {
        var fixture = d.Plan.FindFixture(r.Reading.Place.Fixture);
        var place = fixture is null
            ? RoomName(d, r.Reading.Place.Room)
            : r.Reading.Place.Along is { } along && fixture.Front is not null
                ? d.Words.Say("reading.on-case", fixture.Tag, Lengths.Plain(d.Plan.Units, fixture.FromLeft(along)))
                : fixture.Tag;
        var value = Shown(r) && r.HitOnly ? d.Words["reading.hit-only"] : Shown(r) ? d.Words.Say("reading.net", Text(r)) : d.Words.Say("reading.quiet", Numbers.Ppm(r.DetectionPpm));
        return $"{place}: {value}, {d.Words["air." + r.Reading.Air.Kebab()]}";
    }

    private static string RoomName(PlanDrawing d, string? room) =>
        d.Plan.Rooms.FirstOrDefault(r => r.Id == room)?.Name ?? d.Plan.FindFixture(room)?.Tag ?? d.Words["plan.sales-floor"];
}
