using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Equipment has no front to walk: a checklist stop each, with what to look at.</summary>
internal static class EquipmentMethod
{
    public static void AddTo(DraftBuilder draft)
    {
        foreach (var equipment in draft.Plan.Equipment)
        {
            var id = draft.IdOf(equipment.Id, "K01");
            var place = equipment.Level == "floor" ? "" : $" On the {equipment.Level}: ladder and fall protection by the site's rules.";
            var point = draft.At(id, ProbePass.Checklist, equipment.At, new(0, 0), draft.Protocol.ChecklistSeconds);
            draft.AddGroup(id, [point with { Equipment = equipment.Id, Spot = Spot.Joint, Note = Look(equipment.Kind) + place }]);
        }
    }

    private static string Look(EquipmentKind kind) => kind switch
    {
        EquipmentKind.Rack => "Shaft seals, valve stems and caps, flanges, filter-drier, receiver level probe, relief valves, vibrating tubes; oil residue.",
        EquipmentKind.CondensingUnit => "Compressor joints, service valves and caps, coil ends, tubes that rub; oil residue.",
        EquipmentKind.Condenser => "Coil ends and header joints, vibration at the fans, relief lines; oil residue.",
        EquipmentKind.ValveStation => "Stems of ball and solenoid valves, caps, strainers, flare nuts.",
        EquipmentKind.PipeRun => "Hangers and wall penetrations, insulation with oil marks, joints.",
        _ => "Coil ends, valve caps, drain pan with the fan off and locked out.",
    };
}
