using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Where one more reading tells most for its minutes.</summary>
internal static class NextBestProbe
{
    private const double SpotStepMetres = 0.3;

    /// <summary>Under this many bits nothing more is to be found by probing.</summary>
    private const double LeastBits = 0.05;

    /// <summary>A place this near a reading of its kind is not proposed, metres: the two would share their patch, and a second number there says little new.</summary>
    private const double ReadMetres = 0.45;

    /// <summary>The same under the lines, where a reading is the highest of a stretch.</summary>
    private const double SweptMetres = 3;

    /// <summary>Minutes that moving the tip under the lines takes beyond one stop (judgement).</summary>
    private const double SweepMinutes = 1.25;

    // Spots worth naming: the return with fans on, the kick plate, under the lines overhead, and the front in still air.
    private static readonly (Spot Spot, bool FansOn)[] Ways = [(Spot.Return, true), (Spot.KickPlate, true), (Spot.Ceiling, true), (Spot.Front, false)];

    /// <summary>The best spot over all zones of line-ups and both air states; null when none tells enough, as when the panels to lift
    /// are known already.</summary>
    public static NextProbe? Find(Plan plan, Scene scene, IReadOnlyList<LeakZone> zones, LocateSettings settings)
    {
        NextProbe? best = null;
        var bestRate = 0.0;
        var questions = scene.Answers.SelectMany(a => a.Leaks).Select(l => new ProbeQuestion(l.Study, l.Leak, l.Probability, l.Above)).Where(q => q.Guesses.Count > 0);
        var asked = questions.SelectMany(q => Ways.Select(w => (Question: q, w.Spot, w.FansOn, Minutes: Minutes(q.Study, w.Spot, w.FansOn, settings))));
        foreach (var (question, spot, fansOn, minutes) in asked.OrderBy(a => a.Minutes))
        {
            // No reading tells more than there is to know: ways too dear to win are not worked out.
            if (question.MostBits < LeastBits || question.MostBits / minutes <= bestRate) continue;
            var study = question.Study;
            var spots = Spots(study, question.Guesses).Where(s => !IsRead(study, s, spot, fansOn)).ToArray();
            foreach (var (s, readings) in spots.Zip(question.Readings(spots, spot, fansOn)))
            {
                var bits = question.Bits(readings);
                if (bits < LeastBits || bits / minutes <= bestRate) continue;
                bestRate = bits / minutes;
                var fixture = study.Axis.Fixtures[study.Axis.FixtureAt(s)];
                var along = study.Axis.ToFront(study.Axis.FixtureAt(s), s);
                best = new NextProbe(
                    fixture.Id, fixture.Front!.PointAt(along), along, spot,
                    fansOn ? AirState.FansOn : AirState.FansOff, bits, Why(plan, fixture, along, spot, fansOn));
            }
        }

        return best;
    }

    private static double Minutes(LineUpStudy study, Spot spot, bool fansOn, LocateSettings settings) =>
        settings.ProbeMinutes + (spot == Spot.Ceiling ? SweepMinutes : 0) + (fansOn || study.Blocks.Any(b => !b.FansOn) ? 0 : settings.FansOffMinutes);

    private static IEnumerable<double> Spots(LineUpStudy study, IReadOnlyList<(FitPoint Point, int Kind)> guesses)
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

    private static string Why(Plan plan, Fixture fixture, double along, Spot spot, bool fansOn)
    {
        var place = $"at {ZoneReason.Place(plan, fixture, along)} of {fixture.Tag}";
        if (spot == Spot.KickPlate) return $"a reading at the kick plate {place} tells most for the minutes it takes";
        if (spot == Spot.Ceiling)
        {
            return $"the tip moved under the lines overhead, {Say.Distance(NextProbe.SweepMetres, plan.Units)} to either side of {place}, tells most: gas there speaks for a source "
                + "above the case, clean air for one in it; write down the highest number and where (a pole from the floor, clear of lights, wiring and sprinklers; nobody climbs on cases; leave what the pole does not reach)";
        }

        if (fansOn) return $"a reading {place} tells most for the minutes it takes";
        var circuits = fixture.Sections.Select(x => x.Circuit).OfType<string>().Distinct().ToList();
        var shared = plan.Fixtures.Where(f => f.Id != fixture.Id && f.Sections.Any(x => x.Circuit is not null && circuits.Contains(x.Circuit))).Select(f => f.Tag).ToList();
        return $"with fans off, {place} tells most; first agree it with the store and whoever runs the controller, "
            + "close the liquid feed or put the circuit in defrost (never stop fans on a fed coil)"
            + (shared.Count > 0 ? $", knowing that {string.Join(", ", shared)} share{(shared.Count == 1 ? "s" : string.Empty)} the circuit" : string.Empty)
            + ", and watch the product's temperature and time";
    }
}
