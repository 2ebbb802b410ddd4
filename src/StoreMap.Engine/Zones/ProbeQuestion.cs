using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What there is to find out about one leak: whether it is there, and behind which panel or above the case; and how much of it a
/// reading would tell.</summary>
internal sealed class ProbeQuestion
{
    private const int Hypotheses = 64;

    /// <summary>Deviation of a reading on the logarithmic scale for planning: the middle noise level and the spot.</summary>
    private const double PlannedDeviation = 0.4;

    private readonly int block;
    private readonly double detection;
    private readonly double[] weights;
    private readonly int[][] panels;

    /// <summary>Asks about a leak.</summary>
    /// <param name="study">Its line-up.</param>
    /// <param name="leak">Its posterior.</param>
    /// <param name="probability">That it is in the case.</param>
    /// <param name="above">That its gas comes from above the case instead.</param>
    public ProbeQuestion(LineUpStudy study, OneLeak leak, double probability, double above)
    {
        Study = study;
        block = Math.Max(0, study.Blocks.ToList().FindIndex(b => b.FansOn));
        detection = study.Blocks[0].Readings.Min(r => r.Source.DetectionPpm);
        Guesses = Guessed(leak, block, above / (probability + above));
        if (Guesses.Count == 0) (weights, panels) = ([], []);
        else
        {
            var gas = Math.Min(1, probability + above);
            weights = [.. Guesses.Select(_ => gas / Guesses.Count), 1 - gas];
            panels = [.. Enumerable.Range(0, Guesses.Count).GroupBy(k => Guesses[k].Kind == (int)SourceKind.Above ? (-1, -1) : PanelOf(study, Guesses[k].Point.Cell)).Select(g => g.ToArray())];
            MostBits = Information.Entropy(panels.Select(p => p.Length * weights[0]).Append(1 - gas)) / Math.Log(2);
        }
    }

    /// <summary>The line-up.</summary>
    public LineUpStudy Study { get; }

    /// <summary>A few sources of each kind that stand for the posterior evenly; none when nothing is known.</summary>
    public IReadOnlyList<(FitPoint Point, int Kind)> Guesses { get; }

    /// <summary>Bits that the whole answer is worth.</summary>
    public double MostBits { get; }

    /// <summary>What a reading says, in bits, of whether there is a leak and behind which panel, or a source above: the place within one does
    /// not matter.</summary>
    /// <param name="readings">The reading for each guess, of deviation 1; <see cref="Readings"/>.</param>
    public double Bits(double[] readings)
    {
        var nats = Information.Of([.. readings, 0], weights);
        foreach (var panel in panels)
        {
            nats -= panel.Length * weights[0] * Information.Of([.. panel.Select(k => readings[k])], [.. panel.Select(_ => 1.0 / panel.Length)]);
        }

        return nats / Math.Log(2);
    }

    /// <summary>Readings for each guess at each place, on the scale where noise has deviation 1. In the other air state the strength is a new
    /// unknown, guessed from that in this one.</summary>
    /// <param name="places">Metres along the line-up.</param>
    /// <param name="spot">What they are read at.</param>
    /// <param name="fansOn">In which air.</param>
    public double[][] Readings(double[] places, Spot spot, bool fansOn)
    {
        var view = SpotView.Of(spot, low: false, onBack: false);
        var known = fansOn == Study.Blocks[block].FansOn;
        var ratio = StillStrength.LogRatio(Study.Axis.Fixtures[0]);
        var air = new BlockAir(Study.Axis, [.. places.Select(s => (s, (double?)StillAir.UnitSeconds))]);
        var response = new double[Study.Axis.Count];
        var readings = places.Select(_ => new double[Guesses.Count]).ToArray();
        foreach (var alike in Enumerable.Range(0, Guesses.Count).GroupBy(SettingOf))
        {
            var setting = alike.Key.Setting;
            for (var i = 0; i < places.Length; i++)
            {
                air.Response(setting, i, response);
                foreach (var k in alike)
                {
                    var (point, kind) = Guesses[k];
                    var strength = Math.Exp(IsAsRead(kind) ? point.LogStrength : point.LogStrength + (fansOn ? -ratio : ratio));
                    readings[i][k] = Scale(view.Of((SourceKind)kind, setting.Cross) * response[point.Cell] * strength, view);
                }
            }
        }

        return readings;

        bool IsAsRead(int kind) => known || kind == (int)SourceKind.Base;

        (int Kind, AirSetting Setting) SettingOf(int k)
        {
            var (point, kind) = Guesses[k];
            if (IsAsRead(kind)) return (kind, Study.Fits[kind][block].Settings[point.Setting]);
            var settings = AirRegime.Of((SourceKind)kind, fansOn);
            return (kind, settings[k * 7 % settings.Length]);
        }
    }

    private static List<(FitPoint Point, int Kind)> Guessed(OneLeak leak, int block, double above)
    {
        var inBase = leak.Place.Select((p, c) => p * leak.BaseShare[c]).Sum();
        double[] shares = [(1 - above) * (1 - inBase), (1 - above) * inBase, above];
        return [.. shares.SelectMany((share, kind) => leak.Points(kind, block, (int)Math.Round(Hypotheses * share)).Select(p => (p, kind)))];
    }

    private static (int Fixture, int Panel) PanelOf(LineUpStudy study, int cell)
    {
        var f = study.Axis.Owner[cell];
        var along = study.Axis.ToFront(f, study.Axis.Centres[cell]);
        var panels = study.Axis.Fixtures[f].Panels;
        for (var i = 0; i < panels.Count; i++)
        {
            if (along >= panels[i].From && along <= panels[i].To) return (f, i);
        }

        return (f, -1);
    }

    private double Scale(double ppm, SpotView view)
    {
        var deviation = view.IsAtCase ? PlannedDeviation : Math.Sqrt((PlannedDeviation * PlannedDeviation) + view.LogVariance);
        return Math.Asinh(deviation * ppm / (0.5 * detection)) / deviation;
    }
}
