using StoreMap.Editing;

namespace StoreMap.Web.Desk;

/// <summary>What keys do to the things chosen on the plan.</summary>
internal static class PlanKeys
{
    private const int ShiftSteps = 10;

    /// <summary>The edit that a key stands for; null for none.</summary>
    /// <param name="key">The key, such as <c>Shift+ArrowLeft</c>.</param>
    /// <param name="chosen">Ids of what is chosen.</param>
    /// <param name="grid">Step of the arrows, in the layout's unit.</param>
    /// <param name="box">The upright box round what is chosen.</param>
    public static LayoutEdit? Of(string key, IReadOnlyList<string> chosen, double grid, (double X0, double Y0, double X1, double Y1)? box)
    {
        if (Arrow(key, grid) is var (x, y)) return new MoveEdit(chosen, x, y);
        return key.Replace("Shift+", "", StringComparison.Ordinal) switch
        {
            "r" or "R" => new RotateEdit(chosen, 1),
            "m" or "M" => new MirrorEdit(chosen, true),
            "d" or "D" when box is var (x0, _, x1, _) => new RepeatEdit(chosen, 1, x1 - x0, 0),
            "Delete" or "Backspace" => new RemoveEdit(chosen),
            _ => null,
        };
    }

    /// <summary>How far a key moves something; null for one that is no arrow.</summary>
    /// <param name="key">The key.</param>
    /// <param name="grid">Step of the arrows, in the layout's unit.</param>
    public static (double X, double Y)? Arrow(string key, double grid)
    {
        var step = key.StartsWith("Shift+", StringComparison.Ordinal) ? ShiftSteps * grid : grid;
        return key.Replace("Shift+", "", StringComparison.Ordinal) switch
        {
            "ArrowLeft" => (-step, 0),
            "ArrowRight" => (step, 0),
            "ArrowUp" => (0, step),
            "ArrowDown" => (0, -step),
            _ => null,
        };
    }
}
