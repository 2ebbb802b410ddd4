using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The low air of aisles and rooms on square cells: dispersion and a wandering draught between cells with no wall or fixture
/// between them, and slow mixing upwards. Explicit finite volumes, conservative but for what mixes upwards.</summary>
internal sealed class RoomGrid
{
    public const double Side = 0.6;
    public const double Height = 1.5;

    private readonly int columns;
    private readonly int rows;
    private readonly double left;
    private readonly double bottom;
    private readonly double[] openRight;
    private readonly double[] openUp;
    private readonly bool[] solid;
    private readonly double[] flow;
    private readonly AirNature nature;
    private readonly Draught east;
    private readonly Draught north;

    public RoomGrid(Plan plan, AirNature nature, SeededNoise noise)
    {
        this.nature = nature;
        left = plan.Outline.Min(p => p.X);
        bottom = plan.Outline.Min(p => p.Y);
        columns = (int)Math.Ceiling((plan.Outline.Max(p => p.X) - left) / Side);
        rows = (int)Math.Ceiling((plan.Outline.Max(p => p.Y) - bottom) / Side);
        var barriers = new BarrierGrid(Barriers.Of(plan));
        openRight = new double[columns * rows];
        openUp = new double[columns * rows];
        solid = new bool[columns * rows];
        flow = new double[columns * rows];
        Ppm = new double[columns * rows];
        Source = new double[columns * rows];
        for (var i = 0; i < Ppm.Length; i++)
        {
            solid[i] = plan.Fixtures.Any(f => PlanRing.Holds(f.Outline, Centre(i))) || plan.Obstacles.Any(o => PlanRing.Holds(o.Outline, Centre(i)));
            if ((i % columns) + 1 < columns) openRight[i] = barriers.Between(Centre(i), Centre(i + 1)) ? 0 : 1;
            if (i + columns < Ppm.Length) openUp[i] = barriers.Between(Centre(i), Centre(i + columns)) ? 0 : 1;
        }

        east = new Draught(noise.Fork(21), nature.RoomDraught, 90, 10);
        north = new Draught(noise.Fork(22), nature.RoomDraught, 90, 10);
    }

    /// <summary>ppm above the store's level, per cell.</summary>
    public double[] Ppm { get; }

    /// <summary>ppm m3/s set free per cell; taken up and cleared by a step.</summary>
    public double[] Source { get; }

    /// <summary>Index of the free cell at a place; a cell in a fixture or obstacle is left for one a little further in the given direction.</summary>
    public int FreeCell(PlanPoint at, PlanPoint towards)
    {
        for (var step = 0; step < 6; step++)
        {
            var i = Index(at + (towards * (0.3 * step)));
            if (!solid[i]) return i;
        }

        return Index(at);
    }

    public double At(PlanPoint p) => Ppm[Index(p)];

    public void Step(double seconds)
    {
        east.Step(seconds);
        north.Step(seconds);
        // A draught faster than half a cell a step would not be stable.
        var limit = 0.2 * Side / seconds;
        var spread = nature.RoomDispersion * seconds / (Side * Side);
        var (u, v) = (Math.Clamp(east.Velocity, -limit, limit) * seconds / Side, Math.Clamp(north.Velocity, -limit, limit) * seconds / Side);
        Array.Clear(flow);
        Exchange(openRight, 1, spread, u);
        Exchange(openUp, columns, spread, v);
        var keep = Math.Exp(-nature.RoomLoss * seconds);
        var gain = seconds / (Side * Side * Height);
        for (var i = 0; i < Ppm.Length; i++)
        {
            Ppm[i] = (Ppm[i] + flow[i]) * keep;
            if (Source[i] == 0) continue;
            Ppm[i] = Math.Max(0, Ppm[i] + (gain * Source[i]));
            Source[i] = 0;
        }
    }

    private void Exchange(double[] open, int next, double spread, double speed)
    {
        var (forth, back) = (spread + Math.Max(0, speed), spread + Math.Max(0, -speed));
        for (var i = 0; i + next < Ppm.Length; i++)
        {
            var moved = open[i] * ((forth * Ppm[i]) - (back * Ppm[i + next]));
            flow[i] -= moved;
            flow[i + next] += moved;
        }
    }

    private PlanPoint Centre(int i) => new(left + (((i % columns) + 0.5) * Side), bottom + (((i / columns) + 0.5) * Side));

    private int Index(PlanPoint p) =>
        (Math.Clamp((int)((p.Y - bottom) / Side), 0, rows - 1) * columns) + Math.Clamp((int)((p.X - left) / Side), 0, columns - 1);
}
