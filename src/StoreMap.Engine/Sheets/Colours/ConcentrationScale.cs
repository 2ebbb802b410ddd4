namespace StoreMap.Sheets;

/// <summary>The steps and colours of a concentration drawn on paper: levels 1, 2, 5 times powers of ten from the detection level
/// up, the action level always among them, light for little and dark for much gas.</summary>
internal sealed class ConcentrationScale
{
    private const int MostLevels = 8;

    // The last of the light end is left out: on white paper it would look like bare floor, and it comes near a safety yellow.
    private const double LightEnd = 0.92;

    private readonly ColourMapKind kind;

    /// <summary>A scale.</summary>
    /// <param name="detectionPpm">Detection level, net ppm, above 0.</param>
    /// <param name="actionPpm">Action level, net ppm.</param>
    /// <param name="highestPpm">Highest value drawn, net ppm.</param>
    /// <param name="kind">Colour map.</param>
    public ConcentrationScale(double detectionPpm, double actionPpm, double highestPpm, ColourMapKind kind)
    {
        this.kind = kind;
        ActionPpm = actionPpm;
        var levels = new SortedSet<double> { detectionPpm };
        if (actionPpm > detectionPpm) levels.Add(actionPpm);
        for (var power = -3; power <= 6; power++)
        {
            foreach (var digit in new[] { 1.0, 2, 5 })
            {
                var level = digit * Math.Pow(10, power);
                // A round step close to the detection or action level would give a band too thin to tell.
                var near = levels.Any(l => Math.Abs(Math.Log(level / l)) < 0.25);
                if (level > detectionPpm && level < highestPpm && !near) levels.Add(level);
            }
        }

        var kept = levels.ToList();
        while (kept.Count > MostLevels) kept.RemoveAt(kept.FindIndex(1, l => l != actionPpm));
        Levels = kept;
    }

    /// <summary>Lower ends of the bands, net ppm, ascending; the first is the detection level.</summary>
    public IReadOnlyList<double> Levels { get; }

    /// <summary>The action level, net ppm.</summary>
    public double ActionPpm { get; }

    /// <summary>Colour of the band that begins at a level.</summary>
    public Colour ColourOf(int index) =>
        ColourMap.At(kind, Levels.Count == 1 ? LightEnd : LightEnd * (1 - ((double)index / (Levels.Count - 1))));

    /// <summary>Colour of a value; null below the first level.</summary>
    public Colour? ColourAt(double ppm)
    {
        var index = -1;
        while (index + 1 < Levels.Count && ppm >= Levels[index + 1]) index++;
        return index < 0 ? null : ColourOf(index);
    }
}
