using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>What each stage is to reach.</summary>
/// <param name="MedianFeet">Median error.</param>
/// <param name="NinetiethFeet">90th percentile of the error.</param>
/// <param name="WidthFeet">Median width of the 90 % interval.</param>
/// <param name="Panels">Mean panels opened; null where none is set.</param>
internal sealed record StageGoal(double MedianFeet, double NinetiethFeet, double? WidthFeet, double? Panels)
{
    public static StageGoal Of(Stage stage, Roughness roughness) => (stage, roughness) switch
    {
        (Stage.Coarse, Roughness.Smooth) => new(1.1, 3.3, 5, 1.45),
        (Stage.Coarse, _) => new(1.4, 4.5, 5, 1.45),
        (Stage.CloseIn, Roughness.Smooth) => new(0.8, 2.4, 3.5, 1.25),
        (Stage.CloseIn, _) => new(1.0, 3.5, 3.5, 1.25),
        (Stage.FansOff, Roughness.Smooth) => new(0.3, 0.9, 1.5, 1.15),
        (Stage.FansOff, _) => new(0.4, 1.0, 1.5, 1.15),
        _ => new(0.9, 3.0, null, null),
    };

    public static double RightFixture(Roughness roughness) => roughness == Roughness.Smooth ? 0.99 : 0.97;
}
