using System.Text.Json.Nodes;

namespace StoreMap.Simulation.Stores;

/// <summary>Random floor plans after four templates.</summary>
internal static class StoreTemplates
{
    private const double CaseDepth = 3.5;
    private const double AnnexFeet = 24;

    /// <summary>Names of the templates.</summary>
    public static IReadOnlyList<string> Names { get; } = ["fresh", "frozen", "mixed", "small"];

    /// <summary>Draws a store.</summary>
    public static JsonObject Draw(int number, string template, bool bakery, SeededNoise noise)
    {
        var plan = new FloorPlan(noise, metric: noise.Chance(0.35));
        var small = template == "small";
        var width = Math.Round(small ? noise.Between(50, 62) : noise.Between(76, 96));
        var aisle = Math.Round(noise.Between(8, 12));
        var first = Math.Round(noise.Between(20, 23));
        var second = first + (2 * CaseDepth) + aisle;
        var depth = Math.Max(60, (small ? first : second) + CaseDepth + Math.Round(noise.Between(9, 11)) + CaseDepth);

        Back(plan, template, width, depth, noise);
        plan.LineUp(Kind(template, noise), Facing.East, CaseDepth, 14, depth - 30, CaseDepth);
        Pair(plan, template, first, width, noise);
        if (!small) Pair(plan, template, second, width, noise);
        if (template is "fresh" or "mixed" || noise.Chance(0.4)) plan.Island(noise.Between(16, 20), 9, noise.Pick([12.0, 16.0]), 6);
        if (template == "frozen") plan.Island(42, 9, 16, 6);
        if (noise.Chance(0.3)) plan.LineUp("service-case", Facing.West, width - 6, 12, 24, CaseDepth);
        plan.Room("R1", "stock", width, depth - 34, width + AnnexFeet, depth, depth - 30, depth - 26, aerosol: false);
        plan.WalkIn(width + 12, depth - 14, 11, 12);
        if (noise.Chance(0.6)) plan.WalkIn(width + 12, depth - 31, 11, 10);
        if (bakery) plan.Room("R2", "bakery", width, 2, width + AnnexFeet, 22, 6, 10, aerosol: true);
        return plan.Layout(number, width + AnnexFeet, depth);
    }

    private static void Back(FloorPlan plan, string template, double width, double depth, SeededNoise noise)
    {
        var used = plan.LineUp(Kind(template, noise), Facing.South, 8, depth - CaseDepth, (width - 16) * noise.Between(0.5, 1), CaseDepth);
        var left = width - 16 - used - 6;
        if (left > 12) plan.LineUp(Kind(template, noise), Facing.South, 8 + used + 6, depth - CaseDepth, left, CaseDepth);
    }

    // Two line-ups back to back, or one with shelving behind it.
    private static void Pair(FloorPlan plan, string template, double middle, double width, SeededNoise noise)
    {
        var room = width - 36;
        plan.LineUp(Kind(template, noise), Facing.South, 14, middle - CaseDepth, room, CaseDepth);
        if (noise.Chance(0.75)) plan.LineUp(Kind(template, noise), Facing.North, 14, middle + CaseDepth, room, CaseDepth);
        else plan.Shelving(14, middle, 14 + room, middle + CaseDepth);
    }

    private static string Kind(string template, SeededNoise noise) => template switch
    {
        "fresh" => noise.Chance(0.8) ? "open-case" : "door-case",
        "frozen" => noise.Chance(0.85) ? "door-case" : "open-case",
        _ => noise.Chance(0.5) ? "open-case" : "door-case",
    };
}
