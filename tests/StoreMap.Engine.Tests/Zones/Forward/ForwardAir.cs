using StoreMap.Plans;

namespace StoreMap.Tests.Zones.Forward;

/// <summary>Gas in an aisle and its line-ups through time: advection and dispersion along each case under a draught that wanders,
/// exchange with the aisle's own strip of air, gusts, section ends that let part through. One implicit step a second.</summary>
internal sealed class ForwardAir
{
    private const double Cell = 0.08;
    private readonly Random random;
    private readonly bool rough;
    private readonly ForwardLineUp[] lineUps;
    private readonly CaseState[] cases;
    private readonly double[] aisle;
    private readonly double aisleLeft;
    private readonly double aisleDispersion;
    private readonly double aisleLoss;
    private readonly double[] overhead;
    private double gust = 1;

    public ForwardAir(Random random, bool rough, ForwardLineUp[] lineUps)
    {
        this.random = random;
        this.rough = rough;
        this.lineUps = lineUps;
        aisleLeft = lineUps.Min(l => l.Left);
        aisle = new double[(int)Math.Ceiling((lineUps.Max(l => l.Right) - aisleLeft) / Cell)];
        overhead = new double[aisle.Length];
        aisleDispersion = Between(0.04, 0.2);
        aisleLoss = Between(0.01, 0.03);
        cases = [.. lineUps.Select(l => new CaseState(this, l))];
    }

    /// <summary>A leak in a case.</summary>
    /// <param name="lineUp">Index of the line-up in the aisle.</param>
    /// <param name="s">Metres from its left end.</param>
    /// <param name="kilogramsPerYear">Strength.</param>
    public void Leak(int lineUp, double s, double kilogramsPerYear) => cases[lineUp].AddSource(s, kilogramsPerYear);

    /// <summary>A leak in a line over the aisle, metres from the aisle's left end.</summary>
    public void LeakOverhead(double s, double kilogramsPerYear)
    {
        var spread = Between(0.6, 1.5);
        var weights = new double[aisle.Length];
        for (var i = 0; i < aisle.Length; i++) weights[i] = Math.Exp(-0.5 * Math.Pow((((i + 0.5) * Cell) - s) / spread, 2));
        var sum = weights.Sum();
        for (var i = 0; i < aisle.Length; i++) overhead[i] += weights[i] / sum * PpmFlow(kilogramsPerYear);
    }

    /// <summary>Lets time pass.</summary>
    public void Run(int seconds)
    {
        for (var t = 0; t < seconds; t++)
        {
            if (random.NextDouble() < (rough ? 0.004 : 0.0015)) gust = Between(1.5, rough ? 4 : 2.5);
            gust = 1 + ((gust - 1) * Math.Exp(-1.0 / 15));
            foreach (var c in cases) c.Step(gust);
            StepAisle();
        }
    }

    /// <summary>Stops or starts a line-up's fans.</summary>
    public void SetFans(int lineUp, bool on) => cases[lineUp].FansOn = on;

    /// <summary>What the probe meets in a case over a dwell, ppm, the place's own deviation included.</summary>
    public double Probe(int lineUp, double s) => cases[lineUp].Probe(s);

    /// <summary>What the probe meets in the aisle, ppm.</summary>
    public double ProbeAisle(double s) => aisle[Math.Clamp((int)(s / Cell), 0, aisle.Length - 1)];

    /// <summary>ppm m³/s of a mass flow at 25 °C of a gas of 86.28 g/mol.</summary>
    private static double PpmFlow(double kilogramsPerYear) => kilogramsPerYear * 1000 / 3.15576e7 / (86.28 / 24.45 * 1e-3);

    private double Between(double low, double high) => low * Math.Pow(high / low, random.NextDouble());

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private void StepAisle()
    {
        const double area = 2.4 * 1.5;
        var source = new double[aisle.Length];
        for (var i = 0; i < aisle.Length; i++) source[i] = aisle[i] + (overhead[i] / (area * Cell));
        foreach (var c in cases) c.SpillInto(source, aisle, aisleLeft, area);
        Diffuse(aisle, source, _ => aisleDispersion, _ => aisleLoss * gust, _ => 0);
    }

    // One implicit step of 1 s with closed ends: (I + k + transport) c = source.
    private static void Diffuse(double[] c, double[] source, Func<int, double> faceDispersion, Func<int, double> loss, Func<int, double> faceSpeed)
    {
        var n = c.Length;
        var lower = new double[n];
        var diagonal = new double[n];
        var upper = new double[n];
        for (var i = 0; i < n; i++) diagonal[i] = 1 + loss(i);
        for (var i = 0; i + 1 < n; i++)
        {
            var d = faceDispersion(i) / (Cell * Cell);
            var u = faceSpeed(i) / Cell;
            var (right, left) = (d + Math.Max(u, 0), d + Math.Max(-u, 0));
            diagonal[i] += right;
            upper[i] -= left;
            diagonal[i + 1] += left;
            lower[i + 1] -= right;
        }

        for (var i = 1; i < n; i++)
        {
            var m = lower[i] / diagonal[i - 1];
            diagonal[i] -= m * upper[i - 1];
            source[i] -= m * source[i - 1];
        }

        c[n - 1] = source[n - 1] / diagonal[n - 1];
        for (var i = n - 2; i >= 0; i--) c[i] = (source[i] - (upper[i] * c[i + 1])) / diagonal[i];
    }

    private sealed class CaseState
    {
        private readonly ForwardAir air;
        private readonly ForwardLineUp lineUp;
        private readonly double[] c;
        private readonly double[] source;
        private readonly double[] lossOn;
        private readonly double[] leaving;
        private readonly double[] faceOpen;
        private readonly double[] patchOn;
        private readonly double[] patchStill;
        private readonly double dispersion;
        private readonly double stillDispersion;
        private readonly double area;
        private readonly double meanSpeed;
        private readonly double speedDeviation;
        private readonly double endDraught;
        private double speed;
        private double turbulence;

        public CaseState(ForwardAir air, ForwardLineUp lineUp)
        {
            this.air = air;
            this.lineUp = lineUp;
            var n = (int)Math.Round(lineUp.Length / Cell);
            c = new double[n];
            source = new double[n];
            leaving = new double[n];
            var exchange = lineUp.Kind switch { FixtureKind.DoorCase => 0.0057, FixtureKind.OpenCase => 0.022, _ => 0.009 } * Math.Exp(0.4 * air.Normal());
            area = air.Between(0.4, 0.8);
            var k = exchange / area;
            var reach = air.Between(0.76, 2.74);
            dispersion = reach * reach * k;
            stillDispersion = air.Between(0.0015, 0.006);
            var celerity = 2 * Math.Sqrt(dispersion * k);
            meanSpeed = celerity * (air.rough ? 0.35 : 0.15) * air.Normal();
            speedDeviation = celerity * (air.rough ? 0.4 : 0.2);
            endDraught = air.rough && air.random.Next(2) == 0 ? air.Between(1, 4) : 0;
            var uneven = Wander(n, 0.6, air.rough ? 0.3 : 0.1);
            lossOn = [.. Enumerable.Range(0, n).Select(i => k * Math.Exp(uneven[i])
                * (1 + (endDraught * (Math.Exp(-i * Cell / 0.8) + Math.Exp(-(n - 1 - i) * Cell / 0.8)))))];
            faceOpen = [.. Enumerable.Repeat(1.0, n)];
            foreach (var joint in lineUp.Joints) faceOpen[Math.Clamp((int)Math.Round(joint / Cell) - 1, 0, n - 2)] = air.Between(0.05, 1);
            var patch = air.rough ? 0.25 : 0.07;
            patchOn = Wander(n, 0.76, patch);
            patchStill = Wander(n, 0.76, patch);
        }

        public bool FansOn { get; set; } = true;

        public void AddSource(double s, double kilogramsPerYear)
        {
            var (i, share) = Between(s);
            source[i] += (1 - share) * PpmFlow(kilogramsPerYear);
            source[i + 1] += share * PpmFlow(kilogramsPerYear);
        }

        public void Step(double gust)
        {
            speed += (-(speed - meanSpeed) / 40) + (speedDeviation * Math.Sqrt(2.0 / 40) * air.Normal());
            turbulence += (-turbulence / 6) + (Math.Sqrt(2.0 / 6) * air.Normal());
            // A closed end has no through flow: the draught dies away towards the ends. Where it slackens, air leaves over the lip with
            // its gas; where it gathers speed, aisle air comes in.
            var n = c.Length;
            var speeds = new double[n];
            for (var i = 0; i + 1 < n; i++)
            {
                speeds[i] = (FansOn ? speed : 0.1 * speed) * faceOpen[i] * (1 - Math.Exp(-(Math.Min(i, n - 2 - i) + 1) * Cell / 0.5));
            }

            var right = new double[n];
            for (var i = 0; i < n; i++)
            {
                var gathering = (speeds[i] - (i > 0 ? speeds[i - 1] : 0)) / Cell;
                leaving[i] = (FansOn ? lossOn[i] * gust : lossOn[i] * 0.12) + Math.Max(0, -gathering);
                var entering = (FansOn ? lossOn[i] * gust : lossOn[i] * 0.12) + Math.Max(0, gathering);
                right[i] = c[i] + (source[i] / (area * Cell)) + (entering * air.aisle[AisleCell(i)]);
            }

            Diffuse(c, right, i => (FansOn ? dispersion : stillDispersion) * faceOpen[i], i => leaving[i], i => speeds[i]);
        }

        public void SpillInto(double[] to, double[] from, double aisleLeft, double aisleArea)
        {
            for (var i = 0; i < c.Length; i++)
            {
                var cell = AisleCell(i);
                to[cell] += leaving[i] * area / aisleArea * (c[i] - from[cell]);
            }
        }

        public double Probe(double s)
        {
            var (i, share) = Between(s);
            var sway = (air.rough ? 0.28 : 0.12) * turbulence;
            var patch = FansOn ? patchOn : patchStill;
            return ((c[i] * (1 - share)) + (c[i + 1] * share)) * Math.Exp(sway + (patch[i] * (1 - share)) + (patch[i + 1] * share));
        }

        private (int Cell, double Share) Between(double s)
        {
            var u = Math.Clamp((s / Cell) - 0.5, 0, c.Length - 1.001);
            return ((int)u, u - (int)u);
        }

        private int AisleCell(int i) => Math.Clamp((int)((lineUp.Left - air.aisleLeft + (i * Cell)) / Cell), 0, air.aisle.Length - 1);

        // A wandering deviation along the case: first-order autoregression.
        private double[] Wander(int n, double length, double deviation)
        {
            var keep = Math.Exp(-Cell / length);
            var x = deviation * air.Normal();
            var values = new double[n];
            for (var i = 0; i < n; i++)
            {
                values[i] = x;
                x = (keep * x) + (deviation * Math.Sqrt(1 - (keep * keep)) * air.Normal());
            }

            return values;
        }
    }
}
