namespace StoreMap.Zones;

/// <summary>What readings at some places show of a source in every cell of their line-up, one air setting after another. Settings share
/// much of the work: it is done once for all.</summary>
/// <param name="axis">The line-up.</param>
/// <param name="places">Where the readings are, metres along the axis, and seconds since the fans stopped; null with fans on.</param>
internal sealed class BlockAir(LineUpAxis axis, IReadOnlyList<(double S, double? StillSeconds)> places)
{
    private readonly Dictionary<double, double[]?[]> returned = [];
    private readonly Dictionary<AirSetting, double[]?[]> rests = [];
    private readonly Dictionary<AirSetting, double[]?[]> builtUp = [];
    private readonly Dictionary<double, SinkingStretch> stretches = [];
    private AirSetting moving;
    private CaseAirSystem? system;

    /// <summary>What a reading shows for a source of strength 1 in each cell.</summary>
    /// <param name="setting">The air.</param>
    /// <param name="reading">Index of the reading.</param>
    /// <param name="response">Filled with one value per cell.</param>
    public void Response(AirSetting setting, int reading, Span<double> response)
    {
        var at = places[reading];
        if (at.StillSeconds is { } seconds && setting.StillDispersion > 0)
        {
            var own = AirSetting.OfBuildUp(setting);
            var rest = AirSetting.OfRest(setting);
            StillAir.Join(
                Known(builtUp, own, reading, (span, s) => StillAir.BuildUp(axis, own, s, seconds, span)),
                Known(rests, rest, reading, (span, s) => SystemOf(rest).Solve(s, span)), setting.Pedestal, seconds, response);
        }
        else
        {
            SystemOf(setting).Solve(at.S, response);
            if (setting.Return > 0)
            {
                CaseAir.AddReturn(response, setting.Return, Known(returned, setting.Reach, reading, (span, s) => CaseAir.Returned(axis, setting.Reach, s, span)));
            }
        }

        if (setting.SourceWidth <= 0) return;
        if (!stretches.TryGetValue(setting.SourceWidth, out var stretch)) stretch = stretches[setting.SourceWidth] = new SinkingStretch(axis, setting.SourceWidth);
        stretch.Widen(response);
    }

    private CaseAirSystem SystemOf(AirSetting setting)
    {
        if (system is null || moving != setting) (system, moving) = (new CaseAirSystem(axis, setting), setting);
        return system;
    }

    private delegate void Fill(Span<double> response, double s);

    private double[] Known<T>(Dictionary<T, double[]?[]> store, T key, int reading, Fill fill)
        where T : notnull
    {
        if (!store.TryGetValue(key, out var all)) all = store[key] = new double[]?[places.Count];
        if (all[reading] is { } known) return known;
        var response = all[reading] = new double[axis.Count];
        fill(response, places[reading].S);
        return response;
    }
}
