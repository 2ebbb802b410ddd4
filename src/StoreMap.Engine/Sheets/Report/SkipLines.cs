using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Points passed over, in lines: whole cases of one reason together, then neighbours of one reason from where to where, then what
/// is on no case. A line counts its points.</summary>
internal static class SkipLines
{
    private const int MostNames = 8;

    public static IReadOnlyList<CutLine> Of(Plan plan, VisitAccount account, Words words)
    {
        var reasons = account.Skipped.ToDictionary(s => s.Id, s => Reason(s.Reason, words));
        var cases = account.Points.Where(p => p.Fixture is not null).GroupBy(p => p.Fixture!).Where(g => g.Any(p => reasons.ContainsKey(p.Id))).ToList();
        var whole = cases.Select(g => (Points: g.Where(p => p.Pass != ProbePass.CloseIn).ToList(), g.Key))
            .Where(c => c.Points.Count > 0 && c.Points.TrueForAll(p => reasons.ContainsKey(p.Id)) && c.Points.Select(p => reasons[p.Id]).Distinct().Count() == 1).ToDictionary(c => c.Key, c => c.Points);
        var lines = whole.GroupBy(c => reasons[c.Value[0].Id])
            .Select(g => new CutLine(words.Say("gaps.whole", Listing.Of([.. g.Select(c => CompareNotes.Tag(plan, c.Key))], MostNames, words), g.Key), g.Sum(c => c.Value.Count))).ToList();
        foreach (var lane in cases.SelectMany(g => whole.ContainsKey(g.Key) ? g.Where(p => p.Pass == ProbePass.CloseIn) : g).GroupBy(p => (p.Fixture, p.Pass, p.OnBack)))
        {
            lines.AddRange(Runs([.. lane.OrderBy(p => Left(plan, p))], reasons).Select(run => new CutLine(words.Say("gaps.because", Where(plan, words, run), reasons[run[0].Id]), run.Count)));
        }

        var places = account.Skipped.Where(s => s.Point?.Fixture is null).GroupBy(s => reasons[s.Id]);
        lines.AddRange(places.Select(g => new CutLine(
            words.Say("gaps.because", Listing.Of([.. g.Select(s => s.Point is null ? Listing.Typed(s.Id) : PlaceWords.Of(plan, words, s.Point))], MostNames, words), g.Key), g.Count())));
        return lines;
    }

    /// <summary>Neighbours skipped for one reason, in the order given.</summary>
    private static List<List<ProbePoint>> Runs(IReadOnlyList<ProbePoint> lane, Dictionary<string, string> reasons)
    {
        var runs = new List<List<ProbePoint>>();
        string? last = null;
        foreach (var point in lane)
        {
            var reason = reasons.GetValueOrDefault(point.Id);
            if (reason is not null && reason == last) runs[^1].Add(point);
            else if (reason is not null) runs.Add([point]);
            last = reason;
        }

        return runs;
    }

    private static string Where(Plan plan, Words words, List<ProbePoint> run)
    {
        if (run.Count == 1) return PlaceWords.Of(plan, words, run[0]);
        var fixture = plan.FindFixture(run[0].Fixture)!;
        var spots = run.Select(p => PlaceWords.SpotOf(words, p)).Distinct().ToList();
        var spot = spots.Count == 1 ? spots[0] : "";
        var (from, to) = (Lengths.Plain(plan.Units, Left(plan, run[0])), Lengths.Plain(plan.Units, Left(plan, run[^1])));
        return fixture.Front is null || from == to
            ? words.Say("gaps.points", PlaceWords.Case(fixture) + spot, run.Count)
            : words.Say("gaps.run", PlaceWords.Case(fixture), from, to, run[0].OnBack ? words["walk.far-side"] + spot : spot, run.Count);
    }

    private static double Left(Plan plan, ProbePoint point) => plan.FindFixture(point.Fixture)!.FromLeft(point.Along ?? 0);

    private static string Reason(string reason, Words words) => string.IsNullOrWhiteSpace(reason) ? words["gaps.no-reason"] : Listing.Typed(words.SkipReason(reason));
}
