using System.Globalization;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Web.Solving;

/// <summary>Turns a comparison of months into words for the desk.</summary>
internal static class CompareText
{
    private const double TrendMillimetres = 90;

    public static CompareAnswer Of(VisitBench bench, VisitStudy study)
    {
        var (plan, comparison) = (bench.Shown, study.Comparison);
        var marks = new CompareMarks(comparison, study.Result);
        return new CompareAnswer(
            [.. comparison.Dates.Select(Day)],
            [.. comparison.Zones.Select(z => Row(plan, z, marks[z]))],
            [.. comparison.Zones.Where(z => z.Visits.Count(v => v.PeakPpm is not null) > 1).Select(z => Line(plan, study.Record, z, marks[z]))],
            [.. comparison.Fixtures.Select(f => Line(plan, study.Record, f))],
            [.. comparison.Sources.Select(s => $"{marks[s]}: {Title(plan, s.Near)}: {Change(s.Change).ToLowerInvariant()}. {s.Note} Look: {s.Look}.")],
            [.. comparison.NotComparable.Select(n => $"{Title(plan, n.Fixture)}: {n.Reason}")],
            [.. comparison.Balances.Select(b => Balance(bench.Plan, b))]);
    }

    private static TrendLine Line(Plan plan, ServiceRecord? record, ZoneHistory z, string letter)
    {
        var title = $"{letter}: {Title(plan, z.Fixture)}, {Where(plan, z)}";
        var told = Told(z.Visits, ScreenTrend.Repairs(z, record));
        return new TrendLine(title, Trend(z.Trend), told, ScreenTrend.Draw(z, record, title, told, TrendMillimetres).Svg);
    }

    private static TrendLine Line(Plan plan, ServiceRecord? record, FixtureHistory f)
    {
        var title = Title(plan, f.Fixture);
        var told = Told(f.Visits, ScreenTrend.Repairs(f, record));
        return new TrendLine(title, Trend(f.Trend), told, ScreenTrend.Draw(f, record, title, told, TrendMillimetres).Svg);
    }

    private static string Told(IReadOnlyList<ZoneVisit> visits, IReadOnlyList<ServiceFinding> repairs) =>
        $"Highest reading above room: {string.Join(", ", visits.Select(v => $"{Day(v.Date)} {Peak(v)}").Concat(repairs.Select(f => $"repaired {Day(f.Repaired!.Value)}")))}.";

    private static ZoneRow Row(Plan plan, ZoneHistory z, string letter) => new(letter, Title(plan, z.Fixture), Where(plan, z), Change(z.Change), [.. z.Visits.Select(Peak)], Trend(z.Trend), z.Service, z.Note);

    private static string Title(Plan plan, string fixture) => plan.FindFixture(fixture) is { } f ? Say.Fixture(f) : fixture;

    private static string Where(Plan plan, ZoneHistory z)
    {
        if (z is not { From: { } from, To: { } to } || plan.FindFixture(z.Fixture) is not { } fixture) return "inside";
        double a = fixture.FromLeft(from), b = fixture.FromLeft(to);
        return $"{Say.Length(plan.Units, Math.Min(a, b))} to {Say.Length(plan.Units, Math.Max(a, b))} from the left";
    }

    private static string Change(ZoneChange change) => change switch
    {
        ZoneChange.New => "New",
        ZoneChange.Recurring => "Seen again",
        ZoneChange.NoLongerSeen => "No longer seen",
        _ => "Not comparable",
    };

    private static string Peak(ZoneVisit v) => PeakText.Of(v) is { } ppm ? ppm + " ppm" : "not probed alike";

    private static string Trend(ZoneTrend? trend) => trend is not { } t ? "Too few alike visits for a trend; four are needed."
        : t.P < 0.05 ? string.Create(CultureInfo.InvariantCulture, $"{(t.SlopePerMonth > 0 ? "Rising" : "Falling")} by {Math.Abs(t.SlopePerMonth):0.#} ppm a month")
        : "Neither rising nor falling for sure";

    private static string Balance(Plan plan, MassBalance b)
    {
        string Weight(double kilograms) => plan.Units is LengthUnit.Metre or LengthUnit.Millimetre
            ? string.Create(CultureInfo.InvariantCulture, $"{kilograms:0.#} kg") : string.Create(CultureInfo.InvariantCulture, $"{kilograms / LengthUnits.KilogramsPerPound:0} lb");
        var text = $"System {b.System}, {b.Refrigerant}: {Weight(b.AddedKilograms)} added in {b.Days} days; the leaks found can have lost {Weight(b.ExplainedLowKilograms)} to {Weight(b.ExplainedHighKilograms)}.";
        if (b.AddsUp) return text;
        return text + (b.SourcesNear.Count == 0 ? " That does not add up: the main leak has probably not been found."
            : $" That does not add up yet: the source near {string.Join(", ", b.SourcesNear.Select(id => Title(plan, id)))}, outside the cases, may be what is missing.") + (b.NotChecked.Count == 0 ? "" : $" Not checked: {string.Join("; ", b.NotChecked)}.");
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
