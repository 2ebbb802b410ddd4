using StoreMap.History;

namespace StoreMap.Sheets;

/// <summary>One zone through the visits on a screen: the chart of the comparison sheet by itself.</summary>
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
    public static Sheet Draw(ZoneHistory zone, ServiceRecord? record, string title, string description, double widthMillimetres, string language = "en")
    {
        var chart = new TrendChart(null, zone, Repairs(zone, record), Words.For(language));
        var width = widthMillimetres - (2 * Margin);
        var svg = new SvgWriter(widthMillimetres, chart.Height(width) + (2 * Margin), title, description, language);
        chart.Draw(svg, new SheetPoint(Margin, Margin), width);
        return new Sheet("trend", title, widthMillimetres, chart.Height(width) + (2 * Margin), svg.Finish());
    }

    /// <summary>Findings of a zone that the chart marks: those repaired between its first and its last visit.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="record">The service record; null when there is none.</param>
    public static IReadOnlyList<ServiceFinding> Repairs(ZoneHistory zone, ServiceRecord? record) =>
        record is null ? [] : [.. CompareNotes.FindingsOf(zone, ServiceFinding.Of(record)).Where(f => f.Repaired >= zone.Visits[0].Date && f.Repaired <= zone.Visits[^1].Date)];
}
