using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>Fixtures that have readings of visits.</summary>
internal static class ReadFixtures
{
    /// <summary>Those that a plan has no more: their numbers would lie on the floor, under a name that nobody knows.</summary>
    /// <param name="local">What this device keeps.</param>
    /// <param name="store">The store's id.</param>
    /// <param name="before">The plan as it was.</param>
    /// <param name="now">The plan as it is to be.</param>
    /// <returns>Each in words, with how many readings of how many visits.</returns>
    public static async Task<IReadOnlyList<string>> TakenOut(LocalStore local, string store, Plan before, Plan now)
    {
        var gone = before.Fixtures.Where(f => now.FindFixture(f.Id) is null).ToList();
        if (gone.Count == 0) return [];
        var read = new Dictionary<string, (int Readings, int Visits)>();
        foreach (var survey in (await local.Surveys()).Where(s => s.Store == store))
        {
            var counting = JournalReplay.Replay(store, before.Units, survey.Started, await local.Events(survey.Id)).Events;
            foreach (var of in counting.Where(e => e.Kind == JournalKinds.Reading).GroupBy(e => (string?)e.Body["fixture"] ?? ""))
            {
                var (readings, visits) = read.GetValueOrDefault(of.Key);
                read[of.Key] = (readings + of.Count(), visits + 1);
            }
        }

        return [.. gone.Where(f => read.ContainsKey(f.Id)).Select(f => FormattableString.Invariant($"{Say.Fixture(f)} ({Many(read[f.Id].Readings, "reading")} of {Many(read[f.Id].Visits, "visit")})"))];

        static string Many(int count, string what) => FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");
    }
}
