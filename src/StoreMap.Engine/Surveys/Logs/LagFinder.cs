namespace StoreMap.Surveys;

/// <summary>Finds the lag that a log itself shows. Passes over the same stretch in both directions fall together only when every number is
/// put back by the right time: opposite passes lie 2 v · lag apart. Where there are none, the rises at the marks tell. Method:
/// docs/readings.md.</summary>
/// <param name="log">The log with the response undone and no delay taken off.</param>
/// <param name="noisePpm">Standard deviation of a number in clean air, ppm.</param>
/// <param name="delaySeconds">Delay of the sampling line as far as known.</param>
/// <param name="lineDeviation">Deviation of that delay, seconds; null when it says nothing, as with a clock that is off.</param>
/// <param name="leastSeconds">Lags from here on are tried.</param>
/// <param name="mostSeconds">Lags up to here are tried.</param>
internal sealed class LagFinder(CorrectedLog log, double noisePpm, double delaySeconds, double? lineDeviation, double leastSeconds, double mostSeconds)
{
    private const double LagStep = 0.1;
    private const double ProfileStepMetres = 0.15;
    private const int LeastSteps = 8;
    private const int EdgeSteps = 2;
    private const double MostMinutesApart = 30;
    private const int LeastStays = 3;
    private const double RiseSeconds = 3;

    /// <summary>How far the air's own motion sets the traces of two passes apart, as a deviation, metres.</summary>
    private const double AirMetres = 0.24;

    /// <summary>Chance that a pair of passes is misled.</summary>
    private const double Misled = 0.3;

    private const int NearSteps = 15;

    /// <summary>The lag from line-ups walked both ways; null when there are none or they show no gas.</summary>
    public LagEstimate? BothWays(ProbePath path)
    {
        var pairs = new List<(double Lag, double Deviation)>();
        for (var i = 0; i < path.Walks.Count; i++)
        {
            for (var j = i + 1; j < path.Walks.Count; j++)
            {
                if (Pair(path.Walks[i], path.Walks[j]) is { } found) pairs.Add(found);
            }
        }

        return pairs.Count == 0 ? null : Together(pairs);
    }

    // What the passes say together, beside what is known of the line: each pair tells the lag to its
    // deviation, or tells nothing at all (two draughts may shift a trace by more than any lag). The mean over the
    // likelihood times the prior, on a grid.
    private LagEstimate Together(List<(double Lag, double Deviation)> pairs)
    {
        var steps = (int)Math.Round((mostSeconds - leastSeconds) / LagStep) + 1;
        var logs = new double[steps];
        for (var k = 0; k < steps; k++)
        {
            var lag = leastSeconds + (k * LagStep);
            if (lineDeviation is { } line) logs[k] = -0.5 * Square((lag - delaySeconds) / line);
            foreach (var pair in pairs)
            {
                var variance = Square(pair.Deviation);
                logs[k] += Math.Log((Misled / (mostSeconds - leastSeconds))
                    + ((1 - Misled) * Math.Exp(-0.5 * Square(lag - pair.Lag) / variance) / Math.Sqrt(2 * Math.PI * variance)));
            }
        }

        var best = Array.IndexOf(logs, logs.Max());
        double sum = 0, mean = 0, square = 0;
        // Round the likeliest lag: a mean of two that exclude each other would be neither.
        for (var k = Math.Max(0, best - NearSteps); k <= Math.Min(steps - 1, best + NearSteps); k++)
        {
            var weight = Math.Exp(logs[k] - logs[best]);
            var lag = leastSeconds + (k * LagStep);
            sum += weight;
            mean += weight * lag;
            square += weight * lag * lag;
        }

        mean /= sum;
        return new LagEstimate(mean, Math.Sqrt(Math.Max(0, (square / sum) - (mean * mean))), pairs.Count, "line-ups walked both ways")
        {
            SpreadSeconds = pairs.Max(p => p.Lag) - pairs.Min(p => p.Lag),
        };
    }

    /// <summary>The lag at which the number rises most at the marks: a probe put into a case with gas comes out of cleaner air.
    /// Null when fewer than three marks have others around them or no rise shows.</summary>
    public LagEstimate? Rises(ProbePath path)
    {
        Stay[] stays = [.. path.Stays.Where(s => s.To - s.From >= RiseSeconds)];
        if (stays.Length < LeastStays) return null;
        return Search(lag =>
        {
            var explained = 0.0;
            foreach (var stay in stays)
            {
                var rise = Mean(stay.From + lag, stay.From + lag + RiseSeconds) - Mean(stay.From + lag - RiseSeconds, stay.From + lag);
                if (rise > 0) explained += rise * rise;
            }

            return (-explained, stays.Length);
        }, _ => true) is var (found, deviation)
            ? new LagEstimate(found, deviation, stays.Length, "rises at the marks") : null;
    }

    private (double Lag, double Deviation)? Pair(Walk there, Walk back)
    {
        if (Math.Abs(back.Span.From - there.Span.To) > MostMinutesApart * 60) return null;
        var shared = Shared(there, back);
        if (shared.Count < LeastSteps) return null;
        var found = Search(lag =>
        {
            var apart = 0.0;
            foreach (var (a, b) in shared)
            {
                var d = Value(a + lag) - Value(b + lag);
                apart += d * d;
            }

            return (apart, shared.Count);
        }, lag => PeakInside(shared, lag));
        // A lag sets the passes apart by the sum of their paces times it; so does what the air moved between them.
        return found is var (seconds, own) ? (seconds, Math.Sqrt(Square(own) + Square(AirMetres / (Pace(there) + Pace(back))))) : null;
    }

    private static double Pace(Walk walk) => (walk.DistanceAt(walk.Span.To) - walk.DistanceAt(walk.Span.From)) / (walk.Span.To - walk.Span.From);

    // Passes put back by a wrong lag may still agree on the tails of a peak that lies beyond the stretch: only a peak within it tells.
    private bool PeakInside(List<(double There, double Back)> shared, double lag)
    {
        var (best, at) = (double.NegativeInfinity, 0);
        for (var k = 0; k < shared.Count; k++)
        {
            var level = Value(shared[k].There + lag) + Value(shared[k].Back + lag);
            if (level > best) (best, at) = (level, k);
        }

        return at >= EdgeSteps && at < shared.Count - EdgeSteps;
    }

    /// <summary>Moments at which both walks passed the same place, in opposite directions.</summary>
    private static List<(double There, double Back)> Shared(Walk there, Walk back)
    {
        var shared = new List<(double, double)>();
        var second = Moments(back);
        var opposite = 0;
        double? lastBack = null;
        foreach (var (place, at) in Moments(there))
        {
            var match = second.Where(m => m.Place.Fixture == place.Fixture && m.Place.OnBack == place.OnBack)
                .OrderBy(m => Math.Abs(m.Place.Along!.Value - place.Along!.Value)).FirstOrDefault();
            if (match.Place is null || Math.Abs(match.Place.Along!.Value - place.Along!.Value) > ProfileStepMetres) continue;
            opposite += lastBack is { } last ? Math.Sign(last - match.Seconds) : 0;
            lastBack = match.Seconds;
            shared.Add((at, match.Seconds));
        }

        return opposite >= LeastSteps / 2 ? shared : [];
    }

    private static List<(ReadingPlace Place, double Seconds)> Moments(Walk walk)
    {
        var moments = new List<(ReadingPlace, double)>();
        var next = 0.0;
        var (from, to) = walk.Span;
        const double Tick = 0.1;
        for (var t = from; t <= to; t += Tick)
        {
            var distance = walk.DistanceAt(t);
            if (distance < next) continue;
            var place = walk.PlaceAt(distance);
            if (place.Along is not null) moments.Add((place, t));
            next = distance + ProfileStepMetres;
        }

        return moments;
    }

    // Least squares over the lag. Clean air agrees with clean air at any lag, so of all lags that may be the one counts beside which being
    // two seconds off is worst; of several hardly worse (marks at even intervals), the one nearest the delay of the line. It is only
    // believed when those two seconds are far worse than the noise. The misfit there tells the noise of a difference, the curvature the
    // deviation.
    private (double Lag, double Deviation)? Search(Func<double, (double Misfit, int Count)> cost, Func<double, bool> mayBe)
    {
        const int Off = 20;
        const double HardlyWorse = 0.7;
        var steps = (int)Math.Round((mostSeconds - leastSeconds) / LagStep) + 1;
        var misfit = new double[steps + (2 * Off)];
        var count = 0;
        for (var k = 0; k < misfit.Length; k++) (misfit[k], count) = cost(LagAt(k));
        int[] lows = [.. Enumerable.Range(Off, steps).Where(k => misfit[k] <= misfit[k - 1] && misfit[k] <= misfit[k + 1] && Gain(k) > 0 && mayBe(LagAt(k)))];
        if (lows.Length == 0) return null;
        var least = HardlyWorse * lows.Max(Gain);
        var best = lows.Where(k => Gain(k) >= least).MinBy(k => Math.Abs(LagAt(k) - delaySeconds));
        var gain = Gain(best);
        var variance = Math.Max(2 * noisePpm * noisePpm, misfit[best] / Math.Max(1, count - 1));
        if (gain < 25 * variance) return null;
        const int Half = 10;
        var (left, right) = (misfit[best - Half], misfit[best + Half]);
        var curve = (left - (2 * misfit[best]) + right) / (Half * LagStep * Half * LagStep);
        if (curve <= 0) return null;
        var shift = 0.5 * (left - right) / (left - (2 * misfit[best]) + right) * Half * LagStep;
        return (LagAt(best) + Math.Clamp(shift, -1, 1), Math.Sqrt(2 * variance / curve));

        double LagAt(int k) => leastSeconds + ((k - Off) * LagStep);

        double Gain(int k) => Math.Min(misfit[k - Off], misfit[k + Off]) - misfit[k];
    }

    private double Value(double seconds) => log.Ppm[log.IndexAt(seconds)];

    private double Mean(double from, double to)
    {
        const double Tick = 0.25;
        var (sum, count) = (0.0, 0);
        for (var t = from + (Tick / 2); t < to; t += Tick)
        {
            sum += Value(t);
            count++;
        }

        return sum / count;
    }

    private static double Square(double x) => x * x;
}
