using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Hits at fixtures without a zone that is as likely as not: each is told as another leak's gas, as gas from a source outside the cases, or as gas whose
/// source was not found. A fixture whose gas nothing explains is never one with no leak seen.</summary>
internal static class ExplainedHits
{
    private const double LeastProbability = 0.5;

    /// <summary>Zones this near a hit may be one leak on either side of a joint between cases, metres.</summary>
    private const double JointMetres = 2.5;

    /// <summary>Fixtures with a hit and no zone, each with what explains its gas, null where nothing does; adds the same to the zones'
    /// reasons, or to what lies elsewhere.</summary>
    public static IReadOnlyDictionary<string, string?> Tell(Plan plan, NetSurvey survey, List<LeakZone> zones, List<Elsewhere> elsewhere)
    {
        var told = new Dictionary<string, string?>();
        var beside = new Dictionary<int, List<string>>();
        Elsewhere[] sources = [.. elsewhere];
        var found = sources.Where(e => e.Probability >= LeastProbability).ToList();
        foreach (var fixture in plan.Fixtures)
        {
            var room = fixture.Front is null ? null : RoomKeys.Of(plan, fixture);
            if (survey.Rooms.Any(r => r.Raised && (r.Room == fixture.Id || (room is not null && r.Room == room)))) continue;
            var hit = survey.Readings.Where(r => r.Reading.Place.Fixture == fixture.Id && r.IsHit && !r.CarryOver).OrderByDescending(r => r.NetPpm).FirstOrDefault();
            if (hit is null) continue;
            var at = hit.Reading.Place.At;
            if (zones.Any(z => z.Fixture == fixture.Id)
                && zones.Where(z => z.Fixture == fixture.Id || z.At.DistanceTo(at) < JointMetres).Sum(z => z.Probability)
                    + sources.Where(e => e.Near == fixture.Id).Sum(e => e.Probability) >= LeastProbability) continue;
            var cause = Enumerable.Range(0, zones.Count)
                .Where(i => zones[i].Probability >= LeastProbability && zones[i].At.DistanceTo(at) < Spread.FarthestMetres && Outdoes(zones[i], hit))
                .OrderBy(i => zones[i].At.DistanceTo(at)).Cast<int?>().FirstOrDefault();
            if (cause is { } zone)
            {
                if (!beside.TryGetValue(zone, out var list)) beside[zone] = list = [];
                list.Add($"the {(hit.HitOnly ? "hit" : Say.Ppm(hit.NetPpm))} at {fixture.Tag}");
                told[fixture.Id] = $"the leak at {plan.FindFixture(zones[zone].Fixture)!.Tag}";
            }
            else if ((found.Find(e => e.Near == fixture.Id) ?? found.Find(e => e.At is not { } place || place.DistanceTo(at) < Spread.FarthestMetres)) is { } source)
            {
                told[fixture.Id] = source.Look;
            }
            else if (Torn(plan, zones, sources, hit) is { } either)
            {
                told[fixture.Id] = either;
            }
            else
            {
                told[fixture.Id] = null;
                elsewhere.Add(new Elsewhere(fixture.Id, LeastProbability, "probe the case and the air round it again, no place explains its readings well", at) { Unexplained = true });
            }
        }

        foreach (var (zone, list) in beside.OrderBy(b => b.Key))
        {
            zones[zone] = zones[zone] with { Reason = $"{zones[zone].Reason}; it explains {string.Join(" and ", list)}" };
        }

        return told;
    }

    /// <summary>A leak at a case or a source outside it, neither as likely as not but one of them; null without one near enough.</summary>
    private static string? Torn(Plan plan, List<LeakZone> zones, Elsewhere[] sources, NetReading hit)
    {
        var near = zones.Where(z => z.At.DistanceTo(hit.Reading.Place.At) < Spread.FarthestMetres && Outdoes(z, hit));
        foreach (var leak in near.OrderBy(z => z.At.DistanceTo(hit.Reading.Place.At)))
        {
            var source = sources.Where(e => e.Near == leak.Fixture).MaxBy(e => e.Probability);
            if (source is not null && leak.Probability + source.Probability >= LeastProbability) return $"the leak at {plan.FindFixture(leak.Fixture)!.Tag} or {source.Look}";
        }

        return null;
    }

    /// <summary>Gas thins out on its way: a leak explains no more elsewhere than was read at it.</summary>
    private static bool Outdoes(LeakZone zone, NetReading hit) => hit.HitOnly || zone.PeakPpm >= hit.NetPpm;
}
