using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The two air spaces of a line-up: case air, which the fans move and the front opens to the aisle, and the base, which runs
/// under the section ends.</summary>
internal sealed class LineUpSpaces
{
    private const double CellMetres = 0.15;
    private const double BaseSection = 0.25;
    private const double BaseIntoCase = 0.3;
    private const double EndReach = 0.8;
    private const double FanStopSeconds = 20;

    private readonly AirNature nature;
    private readonly SeededNoise noise;
    private readonly Channel air;
    private readonly Channel floor;
    private readonly double cell;
    private readonly int[] owner;
    private readonly double[] section;
    private readonly double[] pass;
    private readonly double[] patchOn;
    private readonly double[] patchStill;
    private readonly double[] patchBack;
    private readonly double[] still;
    private readonly bool[] stopped;
    private readonly double[] burst;
    private readonly int[] roomCell;
    private readonly Draught draught;
    private readonly Draught loss;
    private readonly double drift;
    private readonly double leftEnd;
    private readonly double rightEnd;
    private readonly double bay;

    public LineUpSpaces(CaseAxis axis, AirNature nature, RoomGrid room, SeededNoise noise)
    {
        (Axis, this.nature, this.noise) = (axis, nature, noise);
        var n = Math.Max(4, (int)Math.Round(axis.Length / CellMetres));
        cell = axis.Length / n;
        (air, floor) = (new Channel(n, cell), new Channel(n, cell));
        owner = new int[n];
        section = new double[n];
        roomCell = new int[n];
        for (var i = 0; i < n; i++)
        {
            var (fixture, along) = axis.At((i + 0.5) * cell);
            owner[i] = axis.Fixtures.ToList().IndexOf(fixture);
            section[i] = AirNature.Section(fixture.Kind);
            var outward = fixture.OutwardAt(along);
            roomCell[i] = room.FreeCell(fixture.Front!.PointAt(along) + (outward * 0.35), outward);
        }

        pass = new double[n + 1];
        Array.Fill(pass, 1);
        var joints = noise.Fork(31);
        foreach (var joint in axis.Joints) pass[Math.Clamp((int)Math.Round(joint / cell), 1, n - 1)] = joints.Between(0.25, 1);
        patchOn = PatchField.Draw(n, cell, nature.PatchDeviation, noise.Fork(32));
        patchStill = PatchField.Draw(n, cell, 0.7 * nature.PatchDeviation, noise.Fork(33));
        patchBack = PatchField.Draw(n, cell, nature.PatchDeviation, noise.Fork(34));
        still = new double[axis.Fixtures.Count];
        stopped = new bool[axis.Fixtures.Count];
        burst = new double[n];
        draught = new Draught(noise.Fork(35), nature.Draught, 60, nature.GustsPerHour);
        loss = new Draught(noise.Fork(36), 0.25, 120, 0);
        var ends = noise.Fork(37);
        drift = nature.Drift * ends.Normal();
        (leftEnd, rightEnd) = (EndSpeed(ends), EndSpeed(ends));
        bay = ends.Between(0.6, 1.1);
    }

    public CaseAxis Axis { get; }

    /// <summary>Stops or starts a fixture's fans.</summary>
    public void SetFans(string fixture, bool stop)
    {
        for (var f = 0; f < stopped.Length; f++)
        {
            if (Axis.Fixtures[f].Id == fixture) stopped[f] = stop;
        }
    }

    /// <summary>Lets gas into the line-up during the coming step.</summary>
    public void Release(StoreLeak leak)
    {
        var s = Axis.ToAxis(leak.Fixture!, leak.Along);
        var f = owner[Cell(s)];
        var rate = leak.PpmCubicMetresPerSecond * (1 + (still[f] * (leak.StillFactor - 1)));
        if (leak.Site == LeakSite.Base)
        {
            floor.Source[Cell(s)] += rate / (BaseSection * cell);
            return;
        }

        // A fan bay draws part of what leaks upstream of its fans and blows it out over its own width.
        var spread = leak.Site == LeakSite.Coil ? 0.5 * (1 - still[f]) : 0;
        Spread(s - (cell / 2), s + (cell / 2), rate * (1 - spread));
        if (spread <= 0) return;
        var first = Math.Floor(s / bay) * bay;
        Spread(first, Math.Min(first + bay, Axis.Length), rate * spread);
    }

    /// <summary>Lets gas into the case air at an axis place.</summary>
    public void Release(double s, double ppmCubicMetresPerSecond) => air.Source[Cell(s)] += ppmCubicMetresPerSecond / (section[Cell(s)] * cell);

    public void Step(double seconds, RoomGrid room)
    {
        draught.Step(seconds);
        loss.Step(seconds);
        for (var f = 0; f < still.Length; f++) still[f] = Math.Clamp(still[f] + ((stopped[f] ? 1 : -1) * seconds / FanStopSeconds), 0, 1);
        Burst(seconds);
        var n = owner.Length;
        var lossNow = Math.Exp(loss.Velocity);
        var (baseSpread, baseLoss) = nature.Base;
        for (var i = 0; i < n; i++)
        {
            var rest = still[owner[i]];
            var kind = Axis.Fixtures[owner[i]].Kind;
            var running = nature.Running(kind);
            var resting = nature.Still(kind);
            var own = running.Dispersion + (rest * (resting.Dispersion - running.Dispersion));
            air.Exchange[i] = ((running.Loss + (rest * (resting.Loss - running.Loss))) * lossNow) + (burst[i] * (1 - (0.8 * rest)));
            air.Outside[i] = floor.Outside[i] = room.Ppm[roomCell[i]];
            air.Dispersion[i] = own * pass[i];
            air.Speed[i] = (drift + draught.Velocity) * pass[i] * (1 - (0.75 * rest));
            air.Speed[i] += (leftEnd * Math.Exp(-i * cell / EndReach)) - (rightEnd * Math.Exp(-(n - i) * cell / EndReach));
            floor.Exchange[i] = baseLoss;
            floor.Dispersion[i] = baseSpread;
        }

        (air.Speed[0], air.Speed[n]) = (leftEnd, -rightEnd);
        floor.Step(seconds);
        for (var i = 0; i < n; i++) air.Source[i] += BaseIntoCase * baseLoss * floor.Ppm[i] * BaseSection / section[i];
        air.Step(seconds);
        for (var i = 0; i < n; i++)
        {
            room.Source[roomCell[i]] += ((air.Lost[i] * section[i]) + ((1 - BaseIntoCase) * floor.Lost[i] * BaseSection)) * cell;
        }
    }

    /// <summary>ppm of the case air at an axis place as a tip at the front meets it, with the fixed differences from place to place.</summary>
    public double CaseAt(double s, bool onBack)
    {
        var i = Cell(s);
        var rest = still[owner[i]];
        var patch = onBack ? patchBack[i] : Math.Pow(patchOn[i], 1 - rest) * Math.Pow(patchStill[i], rest);
        return air.At(s) * patch;
    }

    /// <summary>ppm of the base at an axis place.</summary>
    public double BaseAt(double s) => floor.At(s) * patchBack[Cell(s)];

    private int Cell(double s) => Math.Clamp((int)(s / cell), 0, owner.Length - 1);

    private void Spread(double from, double to, double rate)
    {
        for (var i = Cell(from); i <= Cell(to); i++)
        {
            var share = (Math.Min(to, (i + 1) * cell) - Math.Max(from, i * cell)) / (to - from);
            if (share > 0) air.Source[i] += rate * share / (section[i] * cell);
        }
    }

    private void Burst(double seconds)
    {
        var fade = Math.Exp(-seconds / 8);
        for (var i = 0; i < burst.Length; i++) burst[i] *= fade;
        if (!noise.Chance(nature.BurstsPerMetreHour * Axis.Length * seconds / 3600)) return;
        var s = noise.Between(0, Axis.Length);
        for (var i = Cell(s - 0.4); i <= Cell(s + 0.4); i++) burst[i] = 0.1;
    }

    private double EndSpeed(SeededNoise ends) => ends.Chance(0.6) ? nature.EndDraught * ends.Uniform() : 0;
}
