namespace StoreMap.Simulation.Stores;

/// <summary>What another leak would have brought to the readings of a visit that was made: the same walk, the same second by second air.</summary>
public static class VisitReplay
{
    /// <summary>ppm at each held reading, mean of the hold, without flicker, sensor or the slip of the hand; 0 where the tip was moved.</summary>
    /// <param name="store">The store.</param>
    /// <param name="visit">The visit as it was walked.</param>
    /// <param name="leak">The only leak.</param>
    public static double[] Gas(SimulatedStore store, Surveyor visit, StoreLeak leak)
    {
        var air = new StoreAir(store, [leak]);
        for (var i = 0; i < Surveyor.SettleSeconds; i++) air.Step();
        var gas = new double[visit.Noted.Count];
        var next = 0;
        for (var second = 0; next < gas.Length; second++)
        {
            foreach (var (fixture, stopped) in visit.StoppedAt.Where(s => s.Value == second)) air.SetFans(fixture, stop: true);
            while (next < gas.Length && (visit.Noted[next].HoldSeconds == 0 || visit.Noted[next].Second <= second)) next++;
            if (next == gas.Length) break;
            var reading = visit.Noted[next];
            if (second >= reading.Second - reading.HoldSeconds) gas[next] += air.Gas(reading.Place, 0) / reading.HoldSeconds;
            air.Step();
        }

        return gas;
    }
}
