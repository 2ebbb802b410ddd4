namespace StoreMap.Sheets;

/// <summary>Which labels go first.</summary>
internal static class LabelPriority
{
    public const double Zone = 100;

    /// <summary>Before its hits: many numbers round a case would leave its tag no way out.</summary>
    public const double FixtureWithHit = 99.5;

    public const double Hit = 90;
    public const double Fixture = 80;
    public const double PointEnds = 70;
    public const double Equipment = 65;
    public const double Room = 60;
    public const double Reading = 50;
    public const double Point = 40;
    public const double Contour = 20;
}
