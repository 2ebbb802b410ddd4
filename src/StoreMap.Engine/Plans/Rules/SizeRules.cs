namespace StoreMap.Plans;

/// <summary>Sizes that no store or fixture has, which as a rule means a wrong unit.</summary>
internal static class SizeRules
{
    // Depths of real cases run from about 2 ft (reach-in) to 8 ft (twin island); a store's median outside this is a wrong unit.
    private const double ShallowMedian = 0.25, DeepMedian = 4;
    private const double ShallowDoubt = 0.4, DeepDoubt = 2.6;

    // Factory sections are 4 to 12 ft long.
    private const double ShortDoubt = 0.6, LongDoubt = 6;

    /// <summary>Checks the store's and every fixture's size, then the unit by the usual depth of a case.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        CheckStore(plan, problems);
        foreach (var fixture in plan.Fixtures)
        {
            var (low, high) = Rings.Box(fixture.Outline);
            var (width, height) = (high.X - low.X, high.Y - low.Y);
            if (Math.Max(width, height) <= LayoutLimits.FixtureMost && Math.Min(width, height) >= LayoutLimits.FixtureLeast) continue;
            problems.Error(fixture.Id, "outline", Box(plan, width, height), "fixture-size",
                $"The fixture is {Box(plan, width, height)}; its sides may be {Say.Length(LayoutLimits.FixtureLeast, plan.Units)} to {Say.Length(LayoutLimits.FixtureMost, plan.Units)}. Check its points and the layout's unit.");
        }

        CheckUnit(plan, problems);
    }

    private static void CheckStore(Plan plan, ProblemList problems)
    {
        var (low, high) = Rings.Box(plan.Outline);
        var (width, height) = (high.X - low.X, high.Y - low.Y);
        var small = Math.Min(width, height) < LayoutLimits.StoreLeast;
        if (!small && Math.Max(width, height) <= LayoutLimits.StoreMost) return;
        problems.Error(null, "outline", Box(plan, width, height), "store-size",
            $"The store is {Box(plan, width, height)}, which is {(small ? "less than 1 m across" : "more than 2 km across")}. {Likely(plan, width, height)}");
    }

    private static string Likely(Plan plan, double width, double height)
    {
        foreach (var unit in Enum.GetValues<LengthUnit>())
        {
            var (w, h) = (plan.Units.FromMetres(width) * unit.InMetres(), plan.Units.FromMetres(height) * unit.InMetres());
            if (unit != plan.Units && Math.Min(w, h) > 8 && Math.Max(w, h) < 300) return $"Are the numbers in {unit.Symbol()}? Then the store is {Say.Number(w)} × {Say.Number(h)} m; set units to {unit.Symbol()}.";
        }

        return "Check the outline and the layout's unit.";
    }

    // One odd measure may be a taste in cases; two odd the same way, or one that no case can have, is a wrong unit.
    private static void CheckUnit(Plan plan, ProblemList problems)
    {
        var cases = plan.Fixtures.Where(f => f.Front is not null).ToList();
        if (cases.Count == 0) return;
        var depth = Median(cases.Select(f => Rings.SignedArea(f.Outline) / f.Front!.Length));

        // A case of one section may be a whole line-up drawn without its joints, which says nothing of the unit.
        var sections = cases.Where(f => f.Sections.Count > 1).SelectMany(f => f.Sections).Select(s => s.To - s.From).ToList();
        var section = sections.Count == 0 ? (double?)null : Median(sections);
        bool deep = depth > DeepDoubt, shallow = depth < ShallowDoubt;
        bool longOnes = section > LongDoubt, shortOnes = section < ShortDoubt;
        if (!deep && !shallow) return;
        var wrong = depth is < ShallowMedian or > DeepMedian || (deep && longOnes) || (shallow && shortOnes);
        var lengths = section is { } length ? $", its sections {Say.Length(length, plan.Units)} ({Say.Number(length)} m) long" : "";
        var message = $"The usual case of this layout is {Say.Length(depth, plan.Units)} ({Say.Number(depth)} m) deep{lengths}; "
            + "real ones are 0.6 to 2.5 m deep and 1.2 to 3.7 m long. Check the layout's unit.";
        if (wrong) problems.Error(null, "units", plan.Units.Symbol(), "units-plausible", message);
        else problems.Warn(null, "units", plan.Units.Symbol(), "units-plausible", message);
    }

    private static double Median(IEnumerable<double> values) => values.Order().ToList() is var sorted ? sorted[sorted.Count / 2] : 0;

    private static string Box(Plan plan, double width, double height) => $"{Say.Length(width, plan.Units)} × {Say.Length(height, plan.Units)}";
}
