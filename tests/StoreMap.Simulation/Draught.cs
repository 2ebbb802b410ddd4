namespace StoreMap.Simulation;

/// <summary>Random air movement along one direction: a slowly wandering draught (Ornstein-Uhlenbeck) with now and then a gust.</summary>
public sealed class Draught(SeededNoise noise, double speed, double correlationSeconds, double gustsPerHour)
{
    private double wander;
    private double gust;

    /// <summary>Velocity now, metres a second.</summary>
    public double Velocity => wander + gust;

    /// <summary>Moves on by a step.</summary>
    public void Step(double seconds)
    {
        var keep = Math.Exp(-seconds / correlationSeconds);
        wander = (wander * keep) + (speed * Math.Sqrt(1 - (keep * keep)) * noise.Normal());
        gust *= Math.Exp(-seconds / 15);
        if (noise.Uniform() < gustsPerHour * seconds / 3600) gust = speed * 4 * noise.Normal();
    }
}
