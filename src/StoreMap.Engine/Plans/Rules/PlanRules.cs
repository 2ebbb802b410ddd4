namespace StoreMap.Plans;

/// <summary>The rules between a plan's elements, in the order in which they are told.</summary>
internal static class PlanRules
{
    /// <summary>Checks a plan whose elements were read; those that could not be read are absent and already reported.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="elements">The elements as the file holds them.</param>
    /// <param name="unitKnown">False when the layout's unit is missing or unknown: sizes can't be judged then.</param>
    /// <param name="problems">Where problems go.</param>
    public static void Check(Plan plan, LayoutElements elements, bool unitKnown, ProblemList problems)
    {
        if (unitKnown) SizeRules.Check(plan, problems);
        InsideOutlineRule.Check(plan, problems);
        FixtureOverlapRule.Check(plan, problems);
        WallRules.Check(plan, problems);
        FrontRules.Check(plan, problems);
        TagRule.Check(plan, problems);
        GapRules.Check(plan, elements, problems);
    }
}
