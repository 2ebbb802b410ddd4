using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Plug-in units: one point at the kick plate, where compressor and joints sit.</summary>
internal static class PlugInMethod
{
    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture)
    {
        if (fixture.Front is not { } front) return [];
        var middle = front.Length / 2;
        var flammable = Refrigerant.Find(draft.Plan.RefrigerantAt(fixture))?.Flammable == true;
        const string reason = "Plug-in unit with its own sealed charge: compressor and joints sit behind the kick plate, so one point there tells.";
        draft.Note(fixture.Id, reason);
        return
        [
            FrontPass.At(draft, fixture, middle, "F01", ProbePass.Front) with
            {
                Spot = Spot.KickPlate,
                Note = flammable ? $"{reason} Flammable charge: use a detector rated for it, no sparks." : reason,
            },
        ];
    }
}
