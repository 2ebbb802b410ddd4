namespace StoreMap.Sheets;

/// <summary>A linear axis from 0 or below to a round end, with round ticks.</summary>
internal sealed class ChartAxis
{
    private readonly double from;
    private readonly double to;

    /// <summary>An axis.</summary>
    /// <param name="low">Lowest value to be shown.</param>
    /// <param name="high">Highest value to be shown, above <paramref name="low"/>.</param>
    /// <param name="from">Sheet coordinate of the lower end.</param>
    /// <param name="to">Sheet coordinate of the upper end.</param>
    /// <param name="ticks">About how many steps.</param>
    public ChartAxis(double low, double high, double from, double to, int ticks = 5)
    {
        this.from = from;
        this.to = to;
        Step = RoundStep(Math.Max(high - low, 1e-9) / ticks);
        Low = Math.Floor(low / Step) * Step;
        High = Math.Ceiling(high / Step) * Step;
    }

    /// <summary>Distance between ticks.</summary>
    public double Step { get; }

    /// <summary>Value at the lower end.</summary>
    public double Low { get; }

    /// <summary>Value at the upper end.</summary>
    public double High { get; }

    /// <summary>Values of the ticks, both ends included.</summary>
    public IEnumerable<double> Ticks => Enumerable.Range(0, (int)Math.Round((High - Low) / Step) + 1).Select(i => Low + (i * Step));

    /// <summary>The sheet coordinate of a value.</summary>
    public double At(double value) => from + ((to - from) * (value - Low) / (High - Low));

    /// <summary>A tick as it is written.</summary>
    public string Text(double value) => Numbers.Fixed(value, Math.Max(0, -(int)Math.Floor(Math.Log10(Step) + 1e-9)));

    /// <summary>The smallest of 1, 2, 5 times a power of ten that is no smaller than a step.</summary>
    internal static double RoundStep(double step)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(step)));
        foreach (var digit in new[] { 1.0, 2, 5 })
        {
            if (digit * power >= step * (1 - 1e-9)) return digit * power;
        }

        return 10 * power;
    }
}
