using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Fixtures joined end to end, laid on one axis: metres from the axis' first end, cut into cells of about 0.1 m.
/// A fixture whose front runs against the axis is turned.</summary>
internal sealed class LineUpAxis
{
    private const double CellMetres = 0.1;
    private readonly double[] starts;
    private readonly bool[] turned;

    public LineUpAxis(IReadOnlyList<Fixture> fixtures, IReadOnlyList<bool> turned)
    {
        Fixtures = [.. fixtures];
        this.turned = [.. turned];
        starts = new double[fixtures.Count];
        var centres = new List<double>();
        var widths = new List<double>();
        var owner = new List<int>();
        var joints = new List<double>();
        var at = 0.0;
        for (var f = 0; f < fixtures.Count; f++)
        {
            starts[f] = at;
            var length = LengthOf(f);
            var cells = Math.Max(2, (int)Math.Ceiling((length / CellMetres) - 1e-9));
            var width = length / cells;
            for (var i = 0; i < cells; i++)
            {
                centres.Add(at + ((i + 0.5) * width));
                widths.Add(width);
                owner.Add(f);
            }

            foreach (var section in fixtures[f].Sections)
            {
                var end = turned[f] ? at + length - section.From : at + section.To;
                if (end > at + 0.05 && end < at + length - 0.05) joints.Add(end);
            }

            at += length;
            if (f + 1 < fixtures.Count) joints.Add(at);
        }

        Length = at;
        Centres = [.. centres];
        Widths = [.. widths];
        Owner = [.. owner];
        joints.Sort();
        Joints = [.. joints];
        JointAfter = new bool[Centres.Length];
        foreach (var joint in joints) JointAfter[Math.Clamp(Array.FindLastIndex(Centres, c => c < joint), 0, Centres.Length - 2)] = true;
    }

    /// <summary>The fixtures in order along the axis.</summary>
    public Fixture[] Fixtures { get; }

    /// <summary>Length of the axis, metres.</summary>
    public double Length { get; }

    /// <summary>Centre of each cell, metres along the axis, ascending.</summary>
    public double[] Centres { get; }

    /// <summary>Width of each cell, metres.</summary>
    public double[] Widths { get; }

    /// <summary>Index into <see cref="Fixtures"/> of each cell's fixture.</summary>
    public int[] Owner { get; }

    /// <summary>Ends of sections and of fixtures inside the axis, metres, ascending.</summary>
    public double[] Joints { get; }

    /// <summary>True where a section or fixture ends between a cell and the next.</summary>
    public bool[] JointAfter { get; }

    /// <summary>Number of cells.</summary>
    public int Count => Centres.Length;

    /// <summary>Index of a fixture on this axis; -1 when it is not on it.</summary>
    public int IndexOf(string? fixture) => Array.FindIndex(Fixtures, f => f.Id == fixture);

    /// <summary>Metres along the axis of a place on a fixture's front.</summary>
    public double ToAxis(int fixture, double along)
    {
        along = Math.Clamp(along, 0, LengthOf(fixture));
        return starts[fixture] + (turned[fixture] ? LengthOf(fixture) - along : along);
    }

    /// <summary>Metres along a fixture's front of a place on the axis.</summary>
    public double ToFront(int fixture, double s) =>
        Math.Clamp(turned[fixture] ? starts[fixture] + LengthOf(fixture) - s : s - starts[fixture], 0, LengthOf(fixture));

    /// <summary>Where a fixture begins and ends on the axis.</summary>
    public (double From, double To) SpanOf(int fixture) => (starts[fixture], starts[fixture] + LengthOf(fixture));

    /// <summary>The fixture at a place on the axis.</summary>
    public int FixtureAt(double s)
    {
        var f = Fixtures.Length - 1;
        while (f > 0 && starts[f] > s) f--;
        return f;
    }

    /// <summary>The plan point on the front at a place on the axis.</summary>
    public PlanPoint PointAt(double s)
    {
        var f = FixtureAt(s);
        return Fixtures[f].Front!.PointAt(ToFront(f, s));
    }

    /// <summary>The cell that holds a place on the axis.</summary>
    public int CellAt(double s)
    {
        var i = Array.BinarySearch(Centres, s);
        if (i >= 0) return i;
        i = ~i;
        if (i == 0) return 0;
        if (i == Count) return Count - 1;
        return s < Centres[i] - (Widths[i] / 2) ? i - 1 : i;
    }

    /// <summary>Shares a place between the two cells whose centres are either side of it.</summary>
    public void Spread(double s, Span<double> share)
    {
        share.Clear();
        var cell = CellAt(s);
        var other = s < Centres[cell] ? Math.Max(0, cell - 1) : Math.Min(Count - 1, cell + 1);
        var far = other == cell ? 0 : Math.Abs(s - Centres[cell]) / Math.Abs(Centres[other] - Centres[cell]);
        share[cell] += 1 - far;
        share[other] += far;
    }

    private double LengthOf(int fixture) => Fixtures[fixture].Front!.Length;
}
