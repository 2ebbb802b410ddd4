using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>The air inside one line-up: puffs wander along it, bounce at its ends and partly at its joints, and leave to the aisle.
/// Case air and base are two spaces of the same length. Random-walk particles, so nothing is shared with a steady formula.</summary>
internal sealed class LineUpAir
{
    private const double KernelMetres = 0.25;
    private const double JointPassChance = 0.4;

    private readonly List<Puff> puffs = [];
    private readonly (Fixture Fixture, double Start, double End, int Sense)[] members;
    private readonly SeededNoise noise;
    private readonly Draught draught;
    private readonly double[] patch;

    public LineUpAir(IReadOnlyList<Fixture> fixtures, SeededNoise noise, double patchDeviation)
    {
        this.noise = noise;
        draught = new Draught(noise.Fork(1), speed: 0.006, correlationSeconds: 60, gustsPerHour: 6);
        var first = fixtures[0].Front!;
        var origin = first.PointAt(0);
        var direction = first.DirectionAt(0);
        members =
        [
            .. fixtures.Select(f =>
            {
                var a = (f.Front!.PointAt(0) - origin).Dot(direction);
                var b = (f.Front.PointAt(f.Front.Length) - origin).Dot(direction);
                return (f, Math.Min(a, b), Math.Max(a, b), b >= a ? 1 : -1);
            }).OrderBy(m => m.Item2),
        ];
        Start = members.Min(m => m.Start);
        End = members.Max(m => m.End);
        patch = Patches(patchDeviation);
    }

    public double Start { get; }

    public double End { get; }

    public IEnumerable<Fixture> Fixtures => members.Select(m => m.Fixture);

    /// <summary>The line-up coordinate of a place on one of its fixtures, metres.</summary>
    public double Coordinate(string fixture, double along)
    {
        var m = members.First(x => x.Fixture.Id == fixture);
        return m.Sense > 0 ? m.Start + along : m.End - along;
    }

    /// <summary>Lets gas into one of the two spaces.</summary>
    /// <param name="at">Line-up coordinate, metres; clamped to the line-up.</param>
    /// <param name="amount">ppm times cubic metres.</param>
    /// <param name="inBase">True for the base.</param>
    public void Release(double at, double amount, bool inBase) =>
        puffs.Add(new Puff { At = Math.Clamp(at, Start, End), Amount = amount, InBase = inBase });

    /// <summary>Moves on by a step.</summary>
    /// <param name="seconds">Step, s.</param>
    /// <param name="fansOff">Tells whether a fixture's fans stand still.</param>
    /// <param name="leave">Called with the plan place and amount of a puff that leaves to the aisle.</param>
    public void Step(double seconds, Func<string, bool> fansOff, Action<PlanPoint, double> leave)
    {
        draught.Step(seconds);
        for (var i = puffs.Count - 1; i >= 0; i--)
        {
            var puff = puffs[i];
            var member = MemberAt(puff.At);
            var (spread, loss, drift) = Regime(member.Fixture, puff.InBase, fansOff(member.Fixture.Id));
            puff.At = Move(puff.At, (drift * draught.Velocity * seconds) + (Math.Sqrt(2 * spread * seconds) * noise.Normal()), puff.InBase);
            if (noise.Uniform() >= loss * seconds) continue;
            if (puff.InBase && noise.Uniform() < 0.3)
            {
                puff.InBase = false;
                continue;
            }

            var along = member.Sense > 0 ? puff.At - member.Start : member.End - puff.At;
            along = Math.Clamp(along, 0, member.Fixture.Front!.Length);
            leave(member.Fixture.Front.PointAt(along) + (member.Fixture.OutwardAt(along) * 0.4), puff.Amount);
            puffs[i] = puffs[^1];
            puffs.RemoveAt(puffs.Count - 1);
        }
    }

    /// <summary>ppm in one of the two spaces at a line-up coordinate, with the fixed differences from place to place.</summary>
    public double Ppm(double at, bool inBase)
    {
        var sum = 0.0;
        foreach (var puff in puffs)
        {
            if (puff.InBase != inBase) continue;
            var d = (puff.At - at) / KernelMetres;
            if (Math.Abs(d) < 4) sum += puff.Amount * Math.Exp(-0.5 * d * d);
        }

        var section = inBase ? 0.25 : SectionArea(MemberAt(at).Fixture.Kind);
        var cell = Math.Clamp((int)((at - Start) / 0.4), 0, patch.Length - 1);
        return sum / (KernelMetres * Math.Sqrt(2 * Math.PI) * section) * patch[cell];
    }

    /// <summary>Cross-section of the moving case air, square metres.</summary>
    private static double SectionArea(FixtureKind kind) => kind switch
    {
        FixtureKind.DoorCase => 0.7,
        FixtureKind.IslandCase => 0.8,
        FixtureKind.ServiceCase => 0.6,
        _ => 1.0,
    };

    /// <summary>Spread (m2/s), loss to the aisle (1/s) and share of the draught, by kind and state.</summary>
    private static (double Spread, double Loss, double Drift) Regime(Fixture fixture, bool inBase, bool fansOff)
    {
        if (inBase) return (0.08, 0.006, 0.5);
        if (fansOff) return (0.003, 0.002, 0.2);
        return fixture.Kind switch
        {
            FixtureKind.DoorCase => (0.025, 0.009, 0.4),
            FixtureKind.IslandCase => (0.03, 0.015, 1),
            FixtureKind.ServiceCase => (0.02, 0.012, 0.6),
            _ => (0.03, 0.022, 1),
        };
    }

    private double Move(double from, double by, bool inBase)
    {
        var to = from + by;
        if (!inBase)
        {
            foreach (var m in members)
            {
                // A joint inside the line-up lets only some of the case air through; the base runs on under it.
                if (m.End < End && (from - m.End) * (to - m.End) < 0 && noise.Uniform() > JointPassChance) to = (2 * m.End) - to;
            }
        }

        if (to < Start) to = (2 * Start) - to;
        if (to > End) to = (2 * End) - to;
        return Math.Clamp(to, Start, End);
    }

    private (Fixture Fixture, double Start, double End, int Sense) MemberAt(double at)
    {
        foreach (var m in members)
        {
            if (at <= m.End) return m;
        }

        return members[^1];
    }

    private double[] Patches(double deviation)
    {
        // Correlated over about 0.75 m: an autoregressive log-normal on 0.4 m cells.
        var values = new double[Math.Max(1, (int)Math.Ceiling((End - Start) / 0.4))];
        var keep = Math.Exp(-0.4 / 0.75);
        var log = deviation * noise.Normal();
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = Math.Exp(log - (deviation * deviation / 2));
            log = (keep * log) + (deviation * Math.Sqrt(1 - (keep * keep)) * noise.Normal());
        }

        return values;
    }

    private sealed class Puff
    {
        public double At;
        public double Amount;
        public bool InBase;
    }
}
