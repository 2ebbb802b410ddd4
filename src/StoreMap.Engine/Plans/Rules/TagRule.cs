namespace StoreMap.Plans;

/// <summary>People, files and sheets call a fixture by its tag: one that two have names neither.</summary>
internal static class TagRule
{
    /// <summary>Warns of every fixture whose tag an earlier one has; upper and lower case are one.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        var first = new Dictionary<string, Fixture>(StringComparer.OrdinalIgnoreCase);
        foreach (var fixture in plan.Fixtures)
        {
            // One id twice is told as such.
            if (first.TryAdd(fixture.Tag, fixture) || first[fixture.Tag].Id == fixture.Id) continue;
            problems.Warn(fixture.Id, "tag", fixture.Tag, "tag-unique", $"Another fixture has the tag {fixture.Tag} already ({first[fixture.Tag].Id}); sheets, readings and findings call fixtures by their tags. Give each its own.");
        }
    }
}
