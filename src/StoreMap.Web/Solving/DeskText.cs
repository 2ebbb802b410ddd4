using System.Globalization;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>Turns maps and answers into pictures and words for the desk.</summary>
internal static class DeskText
{
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

    /// <summary>What is known of a place: see <see cref="PlaceText"/>.</summary>
    public static PlaceAnswer Place(VisitBench bench, VisitStudy study, PlanPoint at) => PlaceText.Of(
        bench.Shown, study.Visit, bench.SamplerOf(study.Visit, study.FieldSettings), study.Known.Count == study.Visits.Count ? study.Known[^1].Result : null, at);

    /// <summary>Each reading of a visit with its background taken off.</summary>
    public static VisitNumbers Numbers(Plan plan, NetSurvey net) => new(
        [.. net.Rooms.Select(r => new SpaceNumbers(r.Name, r.Ppm, r.DeviationPpm, r.Count, r.Reason))],
        [.. net.Readings.Select(r => new ReadingNumbers(
            r.Reading.Time.ToString("HH:mm:ss", CultureInfo.InvariantCulture), Say.Place(plan, r.Reading.Place), $"{r.Reading.Air.Kebab()} {r.Reading.Height?.Kebab()} {r.Reading.Spot?.Kebab()}".Replace('-', ' ').Trim(),
            Shown(r.Reading), r.BackgroundPpm, r.NetPpm, r.DeviationPpm, r.DetectionPpm, r.ActionPpm, r.IsHit, r.Reason))]);

    /// <summary>A visit's day.</summary>
    public static string Day(NetSurvey net) => net.Survey.Start.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>What a reading showed.</summary>
    public static string Shown(Reading r) => r.Bound switch { ReadingBound.Below => "under ", ReadingBound.AtLeast => "over ", _ => "" } + Say.Ppm(r.Ppm);
}
