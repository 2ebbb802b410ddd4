using System.Globalization;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>The words before the tables.</summary>
internal static class Introduction
{
    public static string Text(RunOptions options, IReadOnlyList<Outcome> outcomes, TimeSpan elapsed)
    {
        var singles = outcomes.Where(o => o.Store.Case == StoreCase.OneLeak).ToList();
        var counts = string.Join(", ", Enum.GetValues<StoreCase>().Select(c => $"{Name(c)} {outcomes.Count(o => o.Store.Case == c)}"));
        return string.Create(CultureInfo.InvariantCulture, $"""
            # Accuracy of leak zones, simulated

            Every figure on this page comes from simulated stores. None was measured in a real one: no public set of supermarket surveys with
            known releases was found. Made by

            ```
            dotnet run --project tests/StoreMap.Evaluation -c Release -- --stores {options.Stores} --seed {options.Seed} --out docs/accuracy.md
            ```

            {outcomes.Count} stores ({counts}; half smooth, half rough), seed {options.Seed}, store numbers from {options.First}; {elapsed.TotalMinutes:0.0} minutes on {options.Threads} threads of a
            machine with {Environment.ProcessorCount} cores.

            ## What is simulated

            The generator (`tests/StoreMap.Simulation/Stores`) shares no code and no physics with the locator: a test forbids it to use the rooms
            Air, Fields and Zones. It moves the air of every line-up and of the aisles second by second through time: dispersion along the case,
            wandering draughts (Ornstein-Uhlenbeck) with gusts, bursts of exchange by shoppers and doors, section ends that let a quarter to all
            through, a base space that runs under them, exchange with aisle air that drifts and is taken in by other cases, walk-ins as stirred
            rooms. Half the gas of a coil leak is spread over its fan bay. With fans off the air keeps what it held and builds up over minutes.
            The tip flickers within seconds. The monitor is 5 s late on average, answers in 3 to 9 s (T90), drifts, is 5 % off in gain, rounds to
            1 or 0.1 ppm, shows nothing under 1 or 0.5 ppm and ends at 200 or 1000 ppm; the locator is told the display's step, limits and range,
            and of delay and response only the usual 5 s.

            Smooth: patch effects of log-sd 0.08, flicker 0.15, closed ends, draughts of 4 mm/s. Rough: fixed patch effects of log-sd 0.25 over
            2.5 ft, flicker 0.35 with gaps of clear air, draughts of 10 mm/s with 15 gusts an hour, steady drifts, and up to 20 mm/s of aisle air
            entering at six in ten line-up ends.

            Overhead the air of a source is that of a steady point source in a steady draught (Carslaw and Jaeger; Csanady): the tip follows lines over a case
            0.4 m below them, and is 1.8 m over what leaks inside a case. The locator's two shares for such readings come from the same formula and were
            set on seed 7: in a real store they may differ, and with them what such readings tell.

            Stores: four templates (fresh, frozen, mixed, small), in feet or on a metric module, fronts in either direction, joined line-ups,
            islands with two edges, walk-ins in a stock room, drops and ceiling pipes (four in ten not drawn). Leaks of 0.3 to 40 oz a day
            (log-uniform; 3 to 414 kg a year) at line-up ends, section joints, drops, coils, anywhere, in the base, in walk-ins. Off-case sources
            of 5 to 80 oz a day: overhead pipes drawn or not, and drops beside a case. Two leaks are at least 8 ft apart, half of them in one line-up.

            Passes: coarse 4.5 ft (doors 7.5 ft) with fans on and an aisle reading a line-up; around at most three hits of 2 ppm or more a 2-ft step
            over 8 ft to either side, low at every other place, an aisle reading before the hit, and the tip moved under the lines overhead over as many feet,
            the highest number written down; then the fans of those cases stopped and a 2-ft step over 5 ft to either side of each hit's
            highest reading, from 75 s after the stop. Without a hit the visit ends with the coarse pass. The continuous log is a visit of its own: every front both
            ways at 0.4 ft/s.

            **Detectable** means: without sensor and flicker, the leak by itself brings 2 ppm (the action level) or more, on average over the hold,
            to at least one coarse probe point of its own fixture. {singles.Count(o => o.Detectable)} of {singles.Count} single leaks are detectable. **Found** (two leaks): each has a zone of its own of
            probability 0.5 or more on its fixture that holds it or whose middle is within 4 ft. Two leaks **stand out** when each brings 2 ppm or more to a
            coarse probe point of its own fixture to which the other brings no more: what detectable asks of a leak alone, asked beside another.
            **Pinned**: a case has a zone of 0.5 or more. **Knowing all**: the visit is played again for a leak every 0.15 m along its line-up
            (`VisitReplay`: the same walk, the same air), and the readings are weighed with the noise they have; for the two fan states, not the log.
            Panels are about 4 ft wide; rivals open panels by distance from the place they name. Intervals in brackets are 90 % bootstrap
            intervals (1000 resamples). A verdict is about the point estimate; "not certain" says that the bootstrap interval reaches over the goal.

            ![error by stage](accuracy/error.svg)

            ![coverage by subgroup](accuracy/coverage.svg)

            ![reliability](accuracy/reliability.svg)


            """);
    }

    private static string Name(StoreCase what) => what switch
    {
        StoreCase.OneLeak => "one leak",
        StoreCase.TwoEqual => "two equal leaks",
        StoreCase.OneTenth => "two leaks ten to one",
        StoreCase.OffCase => "off-case source",
        StoreCase.Aerosol => "spray only",
        _ => "clean",
    };
}
