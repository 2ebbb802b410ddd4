using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Where one more reading tells most for its minutes.</summary>
internal static class NextBestProbe
{
    private const int Hypotheses = 64;
    private const double SpotStepMetres = 0.3;

    /// <summary>Under this many bits nothing more is to be found by probing.</summary>
    private const double LeastBits = 0.05;

    /// <summary>A place this near a reading of its kind is not proposed, metres: the two would share their patch, and a second number there says little new.</summary>
    private const double ReadMetres = 0.45;

    /// <summary>The same under the lines, where a reading is the highest of a stretch.</summary>
    private const double SweptMetres = 3;

    /// <summary>Minutes that moving the tip under the lines takes beyond one stop (judgement).</summary>
    private const double SweepMinutes = 1.25;

    /// <summary>Deviation of a reading on the logarithmic scale for planning: the middle noise level and the spot.</summary>
    private const double PlannedDeviation = 0.4;

    // Spots worth naming: the return with fans on, the kick plate, under the lines overhead, and the front in still air.
    private static readonly (Spot Spot, bool FansOn)[] Ways = [(Spot.Return, true), (Spot.KickPlate, true), (Spot.Ceiling, true), (Spot.Front, false)];

    /// <summary>The best spot over all zones of line-ups and both air states; null when none tells enough, as when the panels to lift
    /// are known already.</summary>
    public static NextProbe? Find(Plan plan, Scene scene, IReadOnlyList<LeakZone> zones, LocateSettings settings)
    {
        NextProbe? best = null;
        var bestRate = 0.0;
        foreach (var (study, leak, probability, above) in scene.Answers.SelectMany(a => a.Leaks))
        {
            var block = Math.Max(0, study.Blocks.ToList().FindIndex(b => b.FansOn));
            var detection = study.Blocks[0].Readings.Min(r => r.Source.DetectionPpm);
            var guesses = Guesses(study, leak, block, above / (probability + above));
            if (guesses.Count == 0) continue;
            foreach (var (spot, fansOn) in Ways)
            {
                var minutes = settings.ProbeMinutes + (spot == Spot.Ceiling ? SweepMinutes : 0) + (fansOn || study.Blocks.Any(b => !b.FansOn) ? 0 : settings.FansOffMinutes);
                foreach (var s in Spots(study, guesses).Where(s => !IsRead(study, s, spot, fansOn)))
                {
                    var bits = Bits(study, guesses, Means(study, guesses, s, spot, fansOn, block, detection), Math.Min(1, probability + above));
                    if (bits < LeastBits || bits / minutes <= bestRate) continue;
                    bestRate = bits / minutes;
                    var fixture = study.Axis.Fixtures[study.Axis.FixtureAt(s)];
                    var along = study.Axis.ToFront(study.Axis.FixtureAt(s), s);
                    best = new NextProbe(
                        fixture.Id, fixture.Front!.PointAt(along), along, spot,
                        fansOn ? AirState.FansOn : AirState.FansOff, bits, Why(plan, fixture, along, spot, fansOn));
                }
            }
        }

        return best;
    }

    // A few sources of each kind that stand for the posterior evenly.
    private static List<(FitPoint Point, int Kind)> Guesses(LineUpStudy study, OneLeak leak, int block, double above)
    {
        var inBase = leak.Place.Select((p, c) => p * leak.BaseShare[c]).Sum();
        double[] shares = [(1 - above) * (1 - inBase), (1 - above) * inBase, above];
        return [.. shares.SelectMany((share, kind) => leak.Points(kind, block, (int)Math.Round(Hypotheses * share)).Select(p => (p, kind)))];
    }

    private static IEnumerable<double> Spots(LineUpStudy study, List<(FitPoint Point, int Kind)> guesses)
    {
        var low = Math.Max(0, study.Axis.Centres[guesses.Min(p => p.Point.Cell)] - 1);
        var high = Math.Min(study.Axis.Length, study.Axis.Centres[guesses.Max(p => p.Point.Cell)] + 1);
        var steps = Math.Max(1, (int)Math.Round((high - low) / SpotStepMetres));
        for (var i = 0; i <= steps; i++) yield return low + ((high - low) * i / steps);
    }

    private static bool IsRead(LineUpStudy study, double s, Spot spot, bool fansOn)
    {
        var near = study.Blocks.Where(b => b.FansOn == fansOn).SelectMany(b => b.Readings).Where(r => Math.Abs(r.S - s) < (spot == Spot.Ceiling ? SweptMetres : ReadMetres));
        return near.Any(r => spot switch
        {
            Spot.Ceiling => !r.View.IsAtCase,
            Spot.KickPlate => r.View.IsAtCase && !r.View.IsCase,
            _ => r.View.IsAtCase && r.View.IsCase,
        });
    }

    // What a reading says, in bits, of whether there is a leak and behind which panel, or a source above: the place within one does not matter.
    private static double Bits(LineUpStudy study, List<(FitPoint Point, int Kind)> guesses, double[] means, double probability)
    {
        var weights = guesses.Select(_ => probability / guesses.Count).Append(1 - probability).ToArray();
        var nats = Information.Of([.. means, 0], weights);
        foreach (var panel in Enumerable.Range(0, guesses.Count).GroupBy(k => guesses[k].Kind == (int)SourceKind.Above ? (-1, -1) : PanelOf(study, guesses[k].Point.Cell)))
        {
            var share = panel.Count() * probability / guesses.Count;
            nats -= share * Information.Of([.. panel.Select(k => means[k])], [.. panel.Select(_ => 1.0 / panel.Count())]);
        }

        return nats / Math.Log(2);
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

    // Readings on the scale where noise has deviation 1. In the other air state the strength is a new unknown, guessed from that in this one.
    private static double[] Means(
        LineUpStudy study, List<(FitPoint Point, int Kind)> guesses, double s, Spot spot, bool fansOn, int block, double detection)
    {
        var view = SpotView.Of(spot, low: false, onBack: false);
        var known = fansOn == study.Blocks[block].FansOn;
        var ratio = StillStrength.LogRatio(study.Axis.Fixtures[0]);
        var responses = new Dictionary<(int Kind, int Setting), double[]>();
        var means = new double[guesses.Count];
        for (var k = 0; k < guesses.Count; k++)
        {
            var (point, kind) = guesses[k];
            var asRead = known || kind == (int)SourceKind.Base;
            var settings = asRead ? study.Fits[kind][block].Settings : AirRegime.Of((SourceKind)kind, fansOn);
            var setting = asRead ? point.Setting : (k * 7) % settings.Length;
            if (!responses.TryGetValue((kind, setting), out var response))
            {
                response = responses[(kind, setting)] = new double[study.Axis.Count];
                if (settings[setting].StillDispersion > 0) StillAir.Response(study.Axis, settings[setting], s, StillAir.UnitSeconds, response);
                else CaseAir.Response(study.Axis, settings[setting], s, response);
                if (settings[setting].SourceWidth > 0) new SinkingStretch(study.Axis, settings[setting].SourceWidth).Widen(response);
            }

            var strength = Math.Exp(asRead ? point.LogStrength : point.LogStrength + (fansOn ? -ratio : ratio));
            means[k] = Scale(view.Of((SourceKind)kind, settings[setting].Cross) * response[point.Cell] * strength, detection, view);
        }

        return means;
    }

    private static double Scale(double ppm, double detection, SpotView view)
    {
        var deviation = view.IsAtCase ? PlannedDeviation : Math.Sqrt((PlannedDeviation * PlannedDeviation) + view.LogVariance);
        return Math.Asinh(deviation * ppm / (0.5 * detection)) / deviation;
    }

    private static string Why(Plan plan, Fixture fixture, double along, Spot spot, bool fansOn)
    {
        var place = $"at {ZoneReason.Place(plan, fixture, along)} of {fixture.Tag}";
        if (spot == Spot.KickPlate) return $"a reading at the kick plate {place} narrows the zone most for its minutes";
        if (spot == Spot.Ceiling)
        {
            return $"the tip moved under the lines overhead, {Say.Distance(NextProbe.SweepMetres, plan.Units)} to either side of {place}, tells most: gas there speaks for a source "
                + "above the case, clean air for one in it; write down the highest number and where (a pole from the floor, clear of lights, wiring and sprinklers; nobody climbs on cases; leave what the pole does not reach)";
        }

        if (fansOn) return $"a reading {place} narrows the zone most for its minutes";
        var circuits = fixture.Sections.Select(x => x.Circuit).OfType<string>().Distinct().ToList();
        var shared = plan.Fixtures.Where(f => f.Id != fixture.Id && f.Sections.Any(x => x.Circuit is not null && circuits.Contains(x.Circuit))).Select(f => f.Tag).ToList();
        return $"with fans off, {place} tells most; first agree it with the store and whoever runs the controller, "
            + "close the liquid feed or put the circuit in defrost (never stop fans on a fed coil)"
            + (shared.Count > 0 ? $", knowing that {string.Join(", ", shared)} share{(shared.Count == 1 ? "s" : string.Empty)} the circuit" : string.Empty)
            + ", and watch the product's temperature and time";
    }
}
