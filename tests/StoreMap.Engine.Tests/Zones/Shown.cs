using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>What one reading shows for a source of strength 1 in each cell.</summary>
internal static class Shown
{
    /// <summary>In moving air.</summary>
    public static void Moving(LineUpAxis axis, AirSetting setting, double s, double[] response) => new BlockAir(axis, [(s, null)]).Response(setting, 0, response);

    /// <summary>In air that has been still for so long.</summary>
    public static void Still(LineUpAxis axis, AirSetting setting, double s, double seconds, double[] response, double loss = StillAir.Loss)
    {
        var (own, rest) = (new double[axis.Count], new double[axis.Count]);
        StillAir.BuildUp(axis, setting, s, seconds, own, loss);
        Moving(axis, AirSetting.OfRest(setting), s, rest);
        StillAir.Join(own, rest, setting.Pedestal, seconds, response, loss);
    }
}
