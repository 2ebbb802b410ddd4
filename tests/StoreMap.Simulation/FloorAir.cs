using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>The air of aisles and rooms: round puffs that drift, grow and die away, and do not pass walls or shelving.</summary>
internal sealed class FloorAir(BarrierGrid barriers, SeededNoise noise)
{
    private const double Spread = 0.03;
    private const double LifeSeconds = 900;

    private readonly List<Puff> puffs = [];
    private readonly Draught east = new(noise.Fork(11), 0.04, 90, 10);
    private readonly Draught north = new(noise.Fork(12), 0.04, 90, 10);

    public void Release(PlanPoint at, double amount) => puffs.Add(new Puff { At = at, Amount = amount });

    public void Step(double seconds)
    {
        east.Step(seconds);
        north.Step(seconds);
        for (var i = puffs.Count - 1; i >= 0; i--)
        {
            var puff = puffs[i];
            puff.Age += seconds;
            if (puff.Age > LifeSeconds)
            {
                puffs[i] = puffs[^1];
                puffs.RemoveAt(puffs.Count - 1);
                continue;
            }

            var jitter = Math.Sqrt(2 * 0.01 * seconds);
            var to = puff.At + new PlanPoint((east.Velocity * seconds) + (jitter * noise.Normal()), (north.Velocity * seconds) + (jitter * noise.Normal()));
            if (!barriers.Between(puff.At, to)) puff.At = to;
        }
    }

    /// <summary>ppm at a place, at probing height.</summary>
    public double Ppm(PlanPoint at)
    {
        var sum = 0.0;
        foreach (var puff in puffs)
        {
            var variance = 0.04 + (2 * Spread * puff.Age);
            var square = (puff.At - at).Dot(puff.At - at);
            if (square > 12 * variance) continue;
            // The layer grows from the lip of a case towards the ceiling, and general ventilation thins it.
            var height = Math.Min(4, 0.5 + (0.15 * Math.Sqrt(puff.Age)));
            var ppm = puff.Amount / (2 * Math.PI * variance * height) * Math.Exp((-square / (2 * variance)) - (puff.Age / 1200));
            if (ppm > 0.002 && !barriers.Between(puff.At, at)) sum += ppm;
        }

        return sum;
    }

    private sealed class Puff
    {
        public PlanPoint At;
        public double Amount;
        public double Age;
    }
}
