using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The air of a walk-in on square cells: fans stir it, still air spreads slowly; a small part is exchanged through the door.</summary>
internal sealed class WalkInAir
{
    private const double Side = 0.5;
    private const double Height = 2.7;
    private const double Stirred = 0.12;
    private const double Rest = 0.01;
    private const double Substep = 0.4;

    private readonly PlanPoint low;
    private readonly int columns;
    private readonly bool[] inside;
    private readonly double[] ppm;
    private readonly double[] flow;
    private readonly double exchange;

    public WalkInAir(Fixture fixture, SeededNoise noise, IEnumerable<StoreLeak> leaks)
    {
        low = new PlanPoint(fixture.Outline.Min(p => p.X), fixture.Outline.Min(p => p.Y));
        columns = (int)Math.Ceiling((fixture.Outline.Max(p => p.X) - low.X) / Side);
        var rows = (int)Math.Ceiling((fixture.Outline.Max(p => p.Y) - low.Y) / Side);
        inside = [.. Enumerable.Range(0, columns * rows).Select(i => PlanRing.Holds(fixture.Outline, Centre(i)))];
        ppm = new double[inside.Length];
        flow = new double[inside.Length];
        exchange = noise.LogBetween(0.5, 4) / 3600;
        var volume = inside.Count(x => x) * Side * Side * Height;
        // Gas has gathered for hours; how far depends on when the door was last open.
        Array.Fill(ppm, leaks.Sum(l => l.PpmCubicMetresPerSecond) / (exchange * volume) * noise.Between(0.3, 1));
    }

    public bool Still { get; set; }

    public void Release(StoreLeak leak, double seconds) =>
        ppm[Index(leak.At)] += leak.PpmCubicMetresPerSecond * (Still ? leak.StillFactor : 1) * seconds / (Side * Side * Height);

    public void Step(double seconds)
    {
        var steps = Still ? 1 : (int)Math.Ceiling(seconds / Substep);
        var spread = (Still ? Rest : Stirred) * seconds / steps / (Side * Side);
        for (var k = 0; k < steps; k++)
        {
            Array.Clear(flow);
            for (var i = 0; i < ppm.Length; i++)
            {
                if ((i % columns) + 1 < columns) Exchange(i, i + 1, spread);
                if (i + columns < ppm.Length) Exchange(i, i + columns, spread);
            }

            for (var i = 0; i < ppm.Length; i++) ppm[i] += flow[i];
        }

        var keep = Math.Exp(-exchange * seconds);
        for (var i = 0; i < ppm.Length; i++) ppm[i] *= keep;
    }

    /// <summary>ppm at a place and height.</summary>
    public double At(PlanPoint p, ProbeHeight? height) => ppm[Index(p)] * (height switch
    {
        ProbeHeight.Low => Still ? 1.5 : 1.05,
        ProbeHeight.High => Still ? 0.6 : 0.95,
        _ => 1,
    });

    private void Exchange(int a, int b, double spread)
    {
        if (!inside[a] || !inside[b]) return;
        var moved = spread * (ppm[a] - ppm[b]);
        flow[a] -= moved;
        flow[b] += moved;
    }

    private PlanPoint Centre(int i) => low + new PlanPoint(((i % columns) + 0.5) * Side, ((i / columns) + 0.5) * Side);

    private int Index(PlanPoint p)
    {
        var rows = ppm.Length / columns;
        var i = (Math.Clamp((int)((p.Y - low.Y) / Side), 0, rows - 1) * columns) + Math.Clamp((int)((p.X - low.X) / Side), 0, columns - 1);
        return inside[i] ? i : Enumerable.Range(0, inside.Length).Where(k => inside[k]).MinBy(k => Centre(k).DistanceTo(p));
    }
}
