using System.Globalization;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>Turns maps and answers into pictures and words for the desk.</summary>
internal static class DeskText
{
    private const double NearReadingMetres = 2;

    /// <summary>The pictures of a study, with its answer once it is located.</summary>
    public static MapAnswer Map(VisitBench bench, VisitStudy study, MapOptions wish)
    {
        var layers = wish.Layers.Split(' ', StringSplitOptions.RemoveEmptyEntries).Aggregate(ScreenLayers.None, (all, name) => all | Enum.Parse<ScreenLayers>(name));
        if (!wish.Locate) layers &= ~(ScreenLayers.Zones | ScreenLayers.Panels);
        var located = wish.Locate ? study.Located : [];
        var shown = wish.EachVisit ? study.Visits.Index().ToList() : [(study.Visits.Count - 1, study.Visit)];
        var visits = shown.Select(v => new ScreenVisit(
            v.Item2, layers.HasFlag(ScreenLayers.HeatMap) ? bench.FieldOf(v.Item2, study.FieldSettings) : null, wish.Locate ? located[v.Item1].Result : null)).ToList();
        var drawn = ScreenMap.Draw(bench.Shown, visits, new ScreenOptions { WidthMillimetres = wish.WidthMillimetres, Layers = layers, ColourMap = wish.Viridis ? ColourMapKind.Viridis : ColourMapKind.Cividis }, wish is { EachVisit: true, Locate: true } ? study.Comparison : null);
        var result = wish.Locate ? study.Result : null;
        return new MapAnswer(
            [.. drawn.Zip(visits, (p, v) => new Picture(Day(v.Net), p.Sheet.Svg, p.Sheet.WidthMillimetres, p.Sheet.HeightMillimetres, p.X, p.Y, p.Factor))],
            [.. drawn[^1].Levels.Select(l => new ColourStep(Say.Ppm(l.Ppm), l.Hex, l.Action))],
            result is null ? null : AnswerText.Of(bench.Shown, study.Visit, result),
            PanelText.Looked(bench.Shown, bench.Looked),
            PanelText.Score(bench.Plan, bench.Looked));
    }

    /// <summary>What is known of a place: the map there, and the readings about it.</summary>
    public static PlaceAnswer Place(VisitBench bench, VisitStudy study, PlanPoint at)
    {
        var plan = bench.Shown;
        var front = PlanPlaces.NearestFront(plan, at);
        var inside = PlanPlaces.FixtureAt(plan, at);
        var place = inside is { Kind: not FixtureKind.WalkIn } ? Say.Fixture(inside)
            : front is { } f ? $"{Say.Fixture(f.Fixture)}, {Say.Length(plan.Units, f.OnBack ? f.Along : f.Fixture.FromLeft(f.Along))} from the left"
            : PlanPlaces.RoomName(plan, PlanPlaces.RoomAt(plan, at));
        var value = bench.SamplerOf(study.Visit, study.FieldSettings).At(at, inside is { Kind: not FixtureKind.WalkIn } ? inside.Id : null);
        var lines = new List<string>();
        if (double.IsNaN(value.MeanPpm)) lines.Add("No air here: a wall, or outside the store.");
        else if (!value.Evidence) lines.Add("Nobody probed near enough to say anything about this place.");
        else
        {
            lines.Add($"About {Say.Ppm(value.MedianPpm)} ppm above room; 9 in 10 that it is between {Say.Ppm(Math.Max(0, value.LowPpm))} and {Say.Ppm(Math.Max(0, value.HighPpm))}.");
            lines.Add(Say.Sentence($"{Say.Chance(value.Exceedance)} that it is at or above the action level"));
        }

        var near = study.Visit.Readings.Where(r => r.Reading.Place.At.DistanceTo(at) <= NearReadingMetres).OrderBy(r => r.Reading.Place.At.DistanceTo(at)).Take(3).ToList();
        lines.AddRange(near.Select(r => $"Read {Shown(r.Reading)} ppm at {Say.Place(plan, r.Reading.Place)}, {r.Reading.Air.Kebab().Replace('-', ' ')}: {Say.Ppm(Math.Max(0, r.NetPpm))} above room."));
        if (near.Count == 0) lines.Add($"No reading within {Say.Length(plan.Units, NearReadingMetres)}.");
        return new PlaceAnswer(place, lines, at.X, at.Y);
    }

    /// <summary>Each reading of a visit with its background taken off.</summary>
    public static VisitNumbers Numbers(Plan plan, NetSurvey net) => new(
        [.. net.Rooms.Select(r => new SpaceNumbers(r.Name, r.Ppm, r.DeviationPpm, r.Count, r.Reason))],
        [.. net.Readings.Select(r => new ReadingNumbers(
            r.Reading.Time.ToString("HH:mm:ss", CultureInfo.InvariantCulture), Say.Place(plan, r.Reading.Place), $"{r.Reading.Air.Kebab()} {r.Reading.Height?.Kebab()} {r.Reading.Spot?.Kebab()}".Replace('-', ' ').Trim(),
            Shown(r.Reading), r.BackgroundPpm, r.NetPpm, r.DeviationPpm, r.DetectionPpm, r.ActionPpm, r.IsHit, r.Reason))]);

    /// <summary>A visit's day.</summary>
    public static string Day(NetSurvey net) => net.Survey.Start.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Shown(Reading r) => r.Bound switch { ReadingBound.Below => "under ", ReadingBound.AtLeast => "over ", _ => "" } + Say.Ppm(r.Ppm);
}
