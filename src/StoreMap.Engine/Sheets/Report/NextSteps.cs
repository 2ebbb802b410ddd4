using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>What we do, in order, with the cautions of each step. "At the usual interval" is said after a clean visit only.</summary>
internal static class NextSteps
{
    /// <summary>Panels in a row on one case named before a list of them is cut: who lifts them needs them all.</summary>
    private const int MostRuns = 8;

    /// <summary>The steps in sentences.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="balances">Refrigerant added against found leaks.</param>
    /// <param name="findings">The service record's findings.</param>
    /// <param name="words">Language.</param>
    /// <param name="most">Most names in one list.</param>
    public static IReadOnlyList<string> Lines(
        Plan plan, NetSurvey net, LocateResult located, IReadOnlyList<MassBalance> balances, IReadOnlyList<ServiceFinding> findings, Words words, int most)
    {
        var steps = new List<string>();
        var verdict = SafetyVerdict.Of(plan, net);
        var danger = verdict.ReachIn.Select(r => CompareNotes.Tag(plan, r.Reading.Reading.Place.Fixture!)).ToList();
        if (verdict.Breathed == SafetyLevel.Over && verdict.Highest is { } worst) danger.Insert(0, SafetyNotes.PlaceOf(plan, worst.Reading, words));
        if (danger.Count > 0) steps.Add(words.Say("next.air", Listing.Of(danger, most, words)));
        AddPanels(steps, plan, net, located, findings, words, most);
        foreach (var zone in ZoneNotes.Told(located).Where(z => z.Panels.Count == 0)) steps.Add(words.Say("next.walk-in", CompareNotes.Tag(plan, zone.Fixture)));
        foreach (var e in located.Elsewhere.Where(e => e.Probability >= ZoneNotes.WorthTelling).OrderByDescending(e => e.Probability).Take(most))
        {
            var near = plan.FindFixture(e.Near) is { } fixture ? PlaceWords.Case(fixture) : plan.Rooms.FirstOrDefault(r => r.Id == e.Near)?.Name ?? e.Near;
            // What no place explains comes with an instruction of its own: there is no place to climb to or enter.
            steps.Add(e.Unexplained ? words.Say("next.find-again", near, words.Remark(e.Look)) : words.Say("next.find", near, words.Remark(e.Look)) + " " + words["next.find-caution"]);
        }

        AddUnexplained(steps, plan, net, located, words, most);
        var told = LiftedNotes.Found(located).SelectMany(c => LiftedNotes.FindingsAt(plan, c, findings)).Where(f => !f.IsRepaired).ToHashSet();
        var open = findings.Where(f => f.FollowedUp is null && !told.Contains(f)).Select(f => $"{FindingWords.Name(plan, f, words)} ({FindingWords.Status(f, words)})").ToList();
        if (open.Count > 0) steps.Add(words.Say("next.findings", Listing.Of(open, most, words)));
        var lost = balances.Where(b => !b.AddsUp && b.SourcesNear.Count == 0).Select(b => b.System).ToList();
        if (lost.Count > 0) steps.Add(words.Say("next.main-leak", string.Join(", ", lost)));
        if (located.NotProbed.Count > 0) steps.Add(words.Say("next.not-probed", Listing.Of([.. located.NotProbed.Select(id => plan.FindFixture(id)?.Tag ?? id)], 2 * most, words)));
        if (steps.Count == 0) steps.Add(words["next.clean"]);
        return steps;
    }

    /// <summary>What is behind panels: confirmed leaks to repair, panels to lift, those found empty. A case that is emptied and locked out is
    /// finished before the next is.</summary>
    private static void AddPanels(List<string> steps, Plan plan, NetSurvey net, LocateResult located, IReadOnlyList<ServiceFinding> findings, Words words, int most)
    {
        var day = DateOnly.FromDateTime(net.Survey.Start.DateTime);
        var repair = LiftedNotes.Found(located).Where(c => !LiftedNotes.IsRepaired(plan, c, findings, day)).Select(c => Found(plan, c, findings, words)).ToList();
        if (repair.Count > 0) steps.Add(words.Say("next.repair", Listing.Of(repair, Math.Max(MostRuns, most), words)));
        var told = ZoneNotes.Told(located).ToList();
        var left = told.SelectMany(z => LiftedNotes.Left(located, z)).Select(p => p.Id).ToHashSet();
        var empty = told.Where(z => LiftedNotes.FoundOf(located, z) is null).SelectMany(z => LiftedNotes.Empty(located, z)).Distinct().ToLookup(PlaceWords.CaseOf);
        var cases = located.Open.Where(left.Contains).GroupBy(PlaceWords.CaseOf).Select(g =>
        {
            var panels = PlaceWords.Panels(plan, words, [.. g])[0];
            return empty.Contains(g.Key) ? panels + " " + words.Say("next.empty", string.Join(", ", empty[g.Key].Select(PlaceWords.PanelNumber))) : panels;
        }).ToList();
        if (cases.Count > 0) steps.Add(words.Say("next.lift", Listing.Of(cases, Math.Max(MostRuns, most), words)));
        var allEmpty = empty.Where(g => !left.Any(p => PlaceWords.CaseOf(p) == g.Key)).SelectMany(g => PlaceWords.Panels(plan, words, [.. g])).ToList();
        if (allEmpty.Count > 0) steps.Add(words.Say("next.all-empty", Listing.Of(allEmpty, Math.Max(MostRuns, most), words)));
    }

    /// <summary>A panel with a leak behind it: what leaks, and the finding that it is on record as.</summary>
    private static string Found(Plan plan, PanelCheck check, IReadOnlyList<ServiceFinding> findings, Words words)
    {
        var panel = PlaceWords.Panels(plan, words, [check.Panel])[0];
        var known = LiftedNotes.FindingsAt(plan, check, findings).Where(f => f.FollowedUp is null).Select(f => FindingWords.Short(plan, f, words));
        var said = string.Join("; ", known.Prepend(check.Component).Where(s => s is { Length: > 0 }));
        return said.Length > 0 ? $"{panel} ({said})" : panel;
    }

    /// <summary>Hits at fixtures that no leak and no outside source accounts for.</summary>
    private static void AddUnexplained(List<string> steps, Plan plan, NetSurvey net, LocateResult located, Words words, int most)
    {
        var hits = net.Readings.Where(r => r.IsHit).Select(r => r.Reading.Place.Fixture).OfType<string>().ToHashSet();
        var told = located.Zones.Select(z => z.Fixture).Concat(located.Elsewhere.Select(e => e.Near)).Concat(located.NoLeakSeen.Select(n => n.Fixture)).ToHashSet();
        var left = plan.Fixtures.Where(f => hits.Contains(f.Id) && !told.Contains(f.Id)).Select(PlaceWords.Case).ToList();
        if (left.Count > 0) steps.Add(words.Say("next.unexplained", Listing.Of(left, most, words)));
    }
}
