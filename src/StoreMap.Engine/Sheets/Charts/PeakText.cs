using StoreMap.History;

namespace StoreMap.Sheets;

/// <summary>A zone's or a fixture's highest reading at a visit, in ppm above room, as table, chart and sheet write it.</summary>
public static class PeakText
{
    /// <summary>Such as <c>9.5</c>; <c>&lt;1.4</c> where nothing showed above the detection level, <c>≥1000</c> over the monitor's range;
    /// null when not probed in like state.</summary>
    public static string? Of(ZoneVisit visit) => visit.PeakPpm is not { } ppm ? null : (visit.AtLeast ? "≥" : visit.Below ? "<" : "") + Numbers.Ppm(ppm);
}
