using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Takes the background off a survey's readings. Method and formulas: docs/readings.md.</summary>
public static class NetSurveyBuilder
{
    /// <summary>Builds the net survey.</summary>
    /// <param name="plan">The plan of the store surveyed.</param>
    /// <param name="survey">The survey, readings in time order with their rooms.</param>
    /// <param name="settings">Action levels and noise; null takes the defaults.</param>
    /// <returns>One net reading per reading in the same order, one background per space with readings, and warnings.</returns>
    public static NetSurvey Build(Plan plan, Survey survey, SurveySettings? settings = null)
    {
        settings ??= new SurveySettings();
        var count = survey.Readings.Count;
        var set = GasSettings.Of(plan, survey);
        var channels = new AirChannel[count];
        var actual = new string?[count];
        var actions = new double[count];
        var factors = new double?[count];
        var left = new bool[count];
        for (var i = 0; i < count; i++)
        {
            var reading = survey.Readings[i];
            var instrument = survey.InstrumentOf(reading);
            channels[i] = AirChannel.Of(survey, reading, set[i]);
            actual[i] = GasSettings.Actual(plan, reading);
            actions[i] = settings.ActionFor(set[i]);
            factors[i] = GasSettings.Factor(set[i], actual[i], instrument, settings);
            left[i] = instrument.Kind is InstrumentKind.Level or InstrumentKind.Hit;
        }

        var carried = CarryOver.Of(survey, channels, actions);
        for (var i = 0; i < count; i++) left[i] |= carried[i] is not null;
        var levels = new RoomLevels(plan, survey, settings, channels, left);
        var nets = new NetReading[count];
        for (var i = 0; i < count; i++)
        {
            nets[i] = survey.InstrumentOf(survey.Readings[i]).Kind is InstrumentKind.Level or InstrumentKind.Hit
                ? WithoutNumber(survey.Readings[i], survey.InstrumentOf(survey.Readings[i]))
                : Net(survey.Readings[i], survey.InstrumentOf(survey.Readings[i]), levels.At(i), levels.Scatter(i), actions[i], carried[i], factors[i], settings);
        }

        var warnings = new List<Problem>();
        Warn(survey, set, actual, factors, carried, warnings);
        var rooms = new RoomReport(plan, survey, levels, channels, nets).Rooms(warnings);
        return new NetSurvey(survey, nets, rooms, warnings);
    }

    private static NetReading Net(
        Reading reading, Instrument instrument, (double Ppm, double Deviation) background, double scatter, double action, double? carried,
        double? factor, SurveySettings settings)
    {
        var noise = new MonitorNoise(instrument.DetectionPpm, instrument.ResolutionPpm, settings.NoiseFraction);
        var backgroundVariance = background.Deviation * background.Deviation;
        var quiet = noise.Variance(background.Ppm) + (scatter * scatter);
        var detection = Math.Max(instrument.DetectionPpm, MonitorNoise.DetectionLevel(quiet, backgroundVariance));
        var scale = factor ?? 1;
        var full = new NetReading
        {
            Reading = reading,
            BackgroundPpm = background.Ppm * scale,
            NetPpm = (reading.Ppm - background.Ppm) * scale,
            DeviationPpm = Math.Sqrt(ReadingVariance(reading, noise, settings) + backgroundVariance) * scale,
            Bound = carried is not null ? ReadingBound.Below : reading.Bound,
            DetectionPpm = detection * scale,
            ActionPpm = Math.Max(action, detection * scale),
            CarryOver = carried is not null,
            SecondsSinceOverRange = carried,
            Reason = carried is not null ? "Taken before the monitor was back at clean air after an over-range reading." : null,
        };
        return factor is null ? OtherGas(full) : full;
    }

    // How the monitor answers to this gas is not known: the number says that there is gas or none, and no more.
    private static NetReading OtherGas(NetReading full) => full with
    {
        NetPpm = full.ActionPpm,
        Bound = full.IsHit ? ReadingBound.AtLeast : ReadingBound.Below,
        HitOnly = true,
        Reason = full.Reason ?? "The monitor was set to another refrigerant: hit or no hit only.",
    };

    // A recovered concentration brings its own deviation; what grows with the reading comes on top.
    private static double ReadingVariance(Reading reading, MonitorNoise noise, SurveySettings settings)
    {
        if (reading.DeviationPpm is not { } own) return noise.Variance(reading.Ppm);
        var growing = settings.NoiseFraction * reading.Ppm;
        return (own * own) + (growing * growing);
    }

    private static NetReading WithoutNumber(Reading reading, Instrument instrument) => new()
    {
        Reading = reading, BackgroundPpm = 0, NetPpm = instrument.DetectionPpm, DeviationPpm = instrument.DetectionPpm,
        Bound = reading.Bound, DetectionPpm = instrument.DetectionPpm, ActionPpm = instrument.DetectionPpm, HitOnly = true,
        Reason = "This monitor shows no ppm: hit or no hit only.",
    };

    private static void Warn(
        Survey survey, string?[] set, string?[] actual, double?[] factors, double?[] carried, List<Problem> warnings)
    {
        for (var i = 0; i < set.Length; i++)
        {
            if (factors[i] is not null) continue;
            var others = Enumerable.Range(0, set.Length).Count(k => factors[k] is null && set[k] == set[i] && actual[k] == actual[i]);
            if (Enumerable.Range(0, i).Any(k => factors[k] is null && set[k] == set[i] && actual[k] == actual[i])) continue;
            warnings.Add(new Problem(Severity.Warning, null, survey.Readings[i].Place.Fixture, "gas", set[i], "gas-setting",
                $"The monitor was set to {set[i]}, the fixture holds {actual[i]} ({Readings(others)}): hit or no hit only, "
                + "not mapped. Set the monitor to the fixture's refrigerant, or give its response to it."));
        }

        var first = Array.FindIndex(carried, c => c is not null);
        if (first < 0) return;
        warnings.Add(new Problem(Severity.Warning, null, survey.Readings[first].Place.Fixture, "ppm", null, "carry-over",
            $"{Readings(carried.Count(c => c is not null))} followed an over-range reading before the monitor was back at clean air. What shows then may "
            + "be gas left in the hose, so it counts as \"no more than\". Probe there again."));
    }

    private static string Readings(int number) => number.ToString(CultureInfo.InvariantCulture) + (number == 1 ? " reading" : " readings");
}
