using StoreMap.History;

namespace StoreMap.Sheets;

/// <summary>One zone or fixture through the visits on a screen: the chart of the comparison sheet by itself.</summary>
public static class ScreenTrend
{
    private const double Margin = 2;

    /// <summary>Draws a zone's highest reading above room at each visit, with the trend where there is one and the repairs on record.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="title">What it is called, for those who can't see it.</param>
    /// <param name="description">What it shows, in a sentence, for the same.</param>
    /// <param name="widthMillimetres">Width, at least 60.</param>
    /// <param name="language">Language code of the words.</param>
    public static Sheet Draw(ZoneHistory zone, ServiceRecord? record, string title, string description, double widthMillimetres, string language = "en") =>
        Draw(new TrendChart(null, zone.Visits, zone.Trend, Repairs(zone, record), Words.For(language)), title, description, widthMillimetres, language);

    /// <summary>Draws a fixture's; see <see cref="Draw(ZoneHistory, ServiceRecord?, string, string, double, string)"/>.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="title">What it is called, for those who can't see it.</param>
    /// <param name="description">What it shows, in a sentence, for the same.</param>
    /// <param name="widthMillimetres">Width, at least 60.</param>
    /// <param name="language">Language code of the words.</param>
    public static Sheet Draw(FixtureHistory fixture, ServiceRecord? record, string title, string description, double widthMillimetres, string language = "en") =>
        Draw(new TrendChart(null, fixture.Visits, fixture.Trend, Repairs(fixture, record), Words.For(language)), title, description, widthMillimetres, language);

    /// <summary>Findings of a zone that the chart marks: those repaired between its first and its last visit.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="record">The service record; null when there is none.</param>
    public static IReadOnlyList<ServiceFinding> Repairs(ZoneHistory zone, ServiceRecord? record) =>
        record is null ? [] : Between(zone.Visits, CompareNotes.FindingsOf(zone, ServiceFinding.Of(record)));

    /// <summary>Findings of a fixture that the chart marks: those repaired between its first and its last visit.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="record">The service record; null when there is none.</param>
    public static IReadOnlyList<ServiceFinding> Repairs(FixtureHistory fixture, ServiceRecord? record) =>
        record is null ? [] : Between(fixture.Visits, ServiceFinding.Of(record).Where(f => f.Entry.Fixture == fixture.Fixture));

    private static List<ServiceFinding> Between(IReadOnlyList<ZoneVisit> visits, IEnumerable<ServiceFinding> findings) =>
        [.. findings.Where(f => f.Repaired >= visits[0].Date && f.Repaired <= visits[^1].Date)];

    private static Sheet Draw(TrendChart chart, string title, string description, double widthMillimetres, string language)
    {
        var width = widthMillimetres - (2 * Margin);
        var height = chart.Height(width) + (2 * Margin);
        var svg = new SvgWriter(widthMillimetres, height, title, description, language);
        chart.Draw(svg, new SheetPoint(Margin, Margin), width);
        return new Sheet("trend", title, widthMillimetres, height, svg.Finish());
    }
}
