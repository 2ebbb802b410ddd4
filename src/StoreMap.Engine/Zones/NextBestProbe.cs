using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Where one more reading tells most for its minutes.</summary>
internal static class NextBestProbe
{
    private const int Hypotheses = 64;
    private const double SpotStepMetres = 0.3;

    /// <summary>Under this many bits nothing more is to be found by probing.</summary>
    private const double LeastBits = 0.25;

    /// <summary>Peak ppm assumed in still air, where the strength is a new unknown.</summary>
    private const double StillPpm = 25;

    /// <summary>Deviation of a reading on the logarithmic scale for planning: the middle noise level and the spot.</summary>
    private const double PlannedDeviation = 0.4;

    /// <summary>The best spot over all zones of line-ups and both air states; null when none tells enough.</summary>
    public static NextProbe? Find(Plan plan, Scene scene, IReadOnlyList<LeakZone> zones, LocateSettings settings)
    {
        NextProbe? best = null;
        var bestRate = 0.0;
        foreach (var (study, leak, probability) in scene.Answers.SelectMany(a => a.Leaks))
        {
            var onBlock = study.Blocks.ToList().FindIndex(b => b.FansOn);
            var detection = study.Blocks[0].Readings.Min(r => r.Source.DetectionPpm);
            var points = leak.Points(0, Math.Max(onBlock, 0), Hypotheses);
            if (points.Count == 0) continue;
            var weights = points.Select(_ => 1.0 / points.Count).ToArray();
            foreach (var fansOn in new[] { true, false })
            {
                var minutes = settings.ProbeMinutes + (fansOn || study.Blocks.Any(b => !b.FansOn) ? 0 : settings.FansOffMinutes);
                foreach (var s in Spots(study, points))
                {
                    var means = Means(study, points, s, fansOn, Math.Max(onBlock, 0), detection);
                    var bits = probability * Information.Of(means, weights) / Math.Log(2);
                    if (bits < LeastBits || bits / minutes <= bestRate) continue;
                    bestRate = bits / minutes;
                    var fixture = study.Axis.Fixtures[study.Axis.FixtureAt(s)];
                    var along = study.Axis.ToFront(study.Axis.FixtureAt(s), s);
                    best = new NextProbe(
                        fixture.Id, fixture.Front!.PointAt(along), along, fansOn ? Spot.Return : Spot.Front,
                        fansOn ? AirState.FansOn : AirState.FansOff, bits, Why(plan, fixture, along, fansOn, zones));
                }
            }
        }

        return best;
    }

    private static IEnumerable<double> Spots(LineUpStudy study, IReadOnlyList<FitPoint> points)
    {
        var low = Math.Max(0, study.Axis.Centres[points.Min(p => p.Cell)] - 1);
        var high = Math.Min(study.Axis.Length, study.Axis.Centres[points.Max(p => p.Cell)] + 1);
        var steps = Math.Max(1, (int)Math.Round((high - low) / SpotStepMetres));
        for (var i = 0; i <= steps; i++)
        {
            var s = low + ((high - low) * i / steps);
            yield return s;
        }
    }

    // Readings on the scale where noise has deviation 1. In still air the strength is a new unknown: a fixed guess, the place decides.
    private static double[] Means(LineUpStudy study, IReadOnlyList<FitPoint> points, double s, bool fansOn, int block, double detection)
    {
        var settings = fansOn ? AirRegime.FansOn : AirRegime.Still;
        var responses = new double[]?[settings.Length];
        var means = new double[points.Count];
        for (var k = 0; k < points.Count; k++)
        {
            var setting = fansOn == study.Blocks[block].FansOn ? points[k].Setting : (k * 7) % settings.Length;
            if (responses[setting] is not { } response)
            {
                response = responses[setting] = new double[study.Axis.Count];
                if (fansOn) CaseAir.Response(study.Axis, settings[setting], s, response);
                else StillAir.Response(study.Axis, settings[setting], s, StillAir.UnitSeconds, response);
            }

            means[k] = Scale(response[points[k].Cell] * (fansOn == study.Blocks[block].FansOn ? Math.Exp(points[k].LogStrength) : StillPpm), detection);
        }

        return means;
    }

    private static double Scale(double ppm, double detection) => Math.Asinh(PlannedDeviation * ppm / (0.5 * detection)) / PlannedDeviation;

    private static string Why(Plan plan, Fixture fixture, double along, bool fansOn, IReadOnlyList<LeakZone> zones)
    {
        var place = $"at {ZoneReason.Place(plan, fixture, along)} of {fixture.Tag}";
        var zone = zones.FirstOrDefault(z => z.Fixture == fixture.Id);
        if (fansOn) return $"a reading {place} narrows the zone most for its minutes";
        var circuits = fixture.Sections.Select(x => x.Circuit).OfType<string>().Distinct().ToList();
        var shared = plan.Fixtures.Where(f => f.Id != fixture.Id && f.Sections.Any(x => x.Circuit is not null && circuits.Contains(x.Circuit))).Select(f => f.Tag).ToList();
        return $"with fans off, {place} tells most; first agree it with the store and whoever runs the controller, "
            + "close the liquid feed or put the circuit in defrost (never stop fans on a fed coil)"
            + (shared.Count > 0 ? $", knowing that {string.Join(", ", shared)} share{(shared.Count == 1 ? "s" : string.Empty)} the circuit" : string.Empty)
            + ", and watch the product's temperature and time";
    }
}
