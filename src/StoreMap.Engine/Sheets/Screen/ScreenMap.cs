using StoreMap.Fields;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The plan on a screen: the passes of the sheets without a page round them, set out for the width there is.</summary>
public static class ScreenMap
{
    /// <summary>Room round the plan for entrance arrows and labels, millimetres.</summary>
    private const double Margin = 5.5;

    /// <summary>Panels numbered on the plan; the list beside it has all.</summary>
    private const int MostPanels = 12;

    /// <summary>Draws one visit.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="visit">What is known of the visit.</param>
    /// <param name="options">Width, layers and colours.</param>
    public static ScreenPicture Draw(Plan plan, ScreenVisit visit, ScreenOptions options) => Draw(plan, [visit], options)[0];

    /// <summary>Draws visits, each a picture of its own, all in one scale of colours.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="visits">The visits.</param>
    /// <param name="options">Width of each, layers and colours.</param>
    /// <param name="comparison">The same visits against one another, whose letters the zones then have; null for letters of each visit's own.</param>
    /// <returns>One picture a visit, in order.</returns>
    public static IReadOnlyList<ScreenPicture> Draw(Plan plan, IReadOnlyList<ScreenVisit> visits, ScreenOptions options, Comparison? comparison = null)
    {
        var marks = comparison is null ? null : new CompareMarks(comparison, visits[^1].Located);
        var scales = visits.Where(v => v.Field is not null).Select(v => HeatMapSheet.ScaleOf(v.Net, v.Field!, options.ColourMap)).ToList();
        var scale = scales.Count == 0 ? null : new ConcentrationScale(
            scales.Min(s => s.Levels[0]), scales.Min(s => s.ActionPpm), visits.Where(v => v.Field is not null).Max(v => HeatMapSheet.HighestOf(v.Field!)), options.ColourMap);
        return [.. visits.Select(v => DrawOne(plan, v, options, scale, marks))];
    }

    /// <summary>Draws a walk with its probe points numbered in walking order.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="route">The walk.</param>
    /// <param name="options">Width and language; layers and colours do not matter.</param>
    public static ScreenPicture DrawWalk(Plan plan, Route route, ScreenOptions options)
    {
        var words = Words.For(options.Language);
        return Picture(plan, options, words["walk.title"], words.Say("walk.description", plan.Name, route.Order.Count), [], d =>
        {
            Under(d, null, null, uncertainty: false);
            RoutePass.Draw(d, route);
            Over(d, new HashSet<string>());
        });
    }

    private static ScreenPicture DrawOne(Plan plan, ScreenVisit visit, ScreenOptions options, ConcentrationScale? scale, CompareMarks? marks)
    {
        var words = Words.For(options.Language);
        var day = Days.Of(visit.Net.Survey.Start);
        IReadOnlyList<ScreenLevel> levels = scale is null ? [] : [.. scale.Levels.Select((level, i) => new ScreenLevel(level, scale.ColourOf(i).Hex, level == scale.ActionPpm))];
        return Picture(plan, options, words.Say("map.title-day", day), words.Say("map.description", plan.Name, day), levels, d => Passes(d, visit, options.Layers, scale, marks));
    }

    private static ScreenPicture Picture(Plan plan, ScreenOptions options, string title, string description, IReadOnlyList<ScreenLevel> levels, Action<PlanDrawing> passes)
    {
        var words = Words.For(options.Language);
        double x0 = plan.Outline.Min(p => p.X), x1 = plan.Outline.Max(p => p.X), y0 = plan.Outline.Min(p => p.Y), y1 = plan.Outline.Max(p => p.Y);
        var denominator = 1000 * (x1 - x0) / (options.WidthMillimetres - (2 * Margin));
        var box = new SheetBox(0, 0, options.WidthMillimetres, ((y1 - y0) * 1000 / denominator) + (2 * Margin));
        var to = new PlanToSheet(denominator, 0, new PlanPoint((x0 + x1) / 2, (y0 + y1) / 2), box.Middle);
        var svg = new SvgWriter(box.Width, box.Height, $"{title}, {plan.Name}", description, options.Language);
        var d = new PlanDrawing(svg, plan, to, box, words);
        svg.Begin("plan", "plan", plan.Name);
        passes(d);
        d.Labels.Place();
        d.Labels.Draw(svg);
        svg.End();
        var origin = to.Point(new PlanPoint(0, 0));
        return new ScreenPicture(new Sheet("screen-map", title, box.Width, box.Height, svg.Finish()), origin.X, origin.Y, to.Length(1), levels);
    }

    private static void Passes(PlanDrawing d, ScreenVisit visit, ScreenLayers layers, ConcentrationScale? scale, CompareMarks? marks)
    {
        Under(d, layers.HasFlag(ScreenLayers.HeatMap) && scale is not null ? visit.Field : null, scale, layers.HasFlag(ScreenLayers.Uncertainty));
        if (layers.HasFlag(ScreenLayers.Panels) && visit.Located is not null) PanelsPass.Draw(d, visit.Located, MostPanels);
        if (layers.HasFlag(ScreenLayers.Readings)) ReadingsPass.Draw(d, visit.Net);
        if (layers.HasFlag(ScreenLayers.Zones) && visit.Located is not null) ZonesPass.Draw(d, visit.Located, marks);
        Over(d, visit.Net.Readings.Where(r => r.IsHit && r.Reading.Place.Fixture is not null).Select(r => r.Reading.Place.Fixture!).ToHashSet());
    }

    private static void Under(PlanDrawing d, GasField? field, ConcentrationScale? scale, bool uncertainty)
    {
        FloorPass.Draw(d);
        if (field is not null) FieldPass.Draw(d, FieldContours.Of(field, scale!, uncertainty));
        ObstaclesPass.Draw(d);
        PitsPass.Draw(d);
        FixturesPass.Draw(d, filled: field is null);
        WallsPass.Draw(d);
        EntrancesPass.Draw(d);
        EquipmentPass.Draw(d);
        DropsPass.Draw(d);
    }

    private static void Over(PlanDrawing d, IReadOnlySet<string> named)
    {
        FixturesPass.AddLabels(d, named);
        RoomLabelsPass.AddLabels(d);
    }
}

/// <summary>What is known of a visit, for a screen.</summary>
/// <param name="Net">Its readings.</param>
/// <param name="Field">Its heat map; null draws none.</param>
/// <param name="Located">Its answer; null draws neither zones nor panels.</param>
public sealed record ScreenVisit(NetSurvey Net, GasField? Field, LocateResult? Located);

/// <summary>How a screen's picture is drawn.</summary>
public sealed record ScreenOptions
{
    /// <summary>Width of the picture, millimetres, at least 40: text is as large on it as on paper, so a smaller picture names less.</summary>
    public double WidthMillimetres { get; init; } = 280;

    /// <summary>What is drawn over the plan.</summary>
    public ScreenLayers Layers { get; init; } = ScreenLayers.HeatMap | ScreenLayers.Readings | ScreenLayers.Zones | ScreenLayers.Uncertainty;

    /// <summary>Colours of the concentration.</summary>
    public ColourMapKind ColourMap { get; init; } = ColourMapKind.Cividis;

    /// <summary>Language code of the words.</summary>
    public string Language { get; init; } = "en";
}

/// <summary>What can be drawn over the plan.</summary>
[Flags]
public enum ScreenLayers
{
    /// <summary>The plan alone.</summary>
    None = 0,

    /// <summary>The gas field.</summary>
    HeatMap = 1,

    /// <summary>The readings.</summary>
    Readings = 2,

    /// <summary>The leak zones.</summary>
    Zones = 4,

    /// <summary>The panels in opening order.</summary>
    Panels = 8,

    /// <summary>Hatching where the heat map is uncertain.</summary>
    Uncertainty = 16,
}

/// <summary>A picture for a screen and how its places lie on the plan: sheet x = <paramref name="X"/> + plan x · <paramref name="Factor"/>,
/// sheet y = <paramref name="Y"/> − plan y · <paramref name="Factor"/>.</summary>
/// <param name="Sheet">The picture.</param>
/// <param name="X">Sheet x of the plan's origin, millimetres.</param>
/// <param name="Y">Sheet y of the plan's origin, millimetres.</param>
/// <param name="Factor">Millimetres of a metre.</param>
/// <param name="Levels">The colours, from the detection level up; empty without a heat map.</param>
public sealed record ScreenPicture(Sheet Sheet, double X, double Y, double Factor, IReadOnlyList<ScreenLevel> Levels);

/// <summary>A step of the colours.</summary>
/// <param name="Ppm">Its lower end, net ppm.</param>
/// <param name="Hex">Its colour.</param>
/// <param name="Action">True for the action level.</param>
public sealed record ScreenLevel(double Ppm, string Hex, bool Action);
