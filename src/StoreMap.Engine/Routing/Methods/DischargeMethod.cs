using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>One check of the discharge air on each line-up, as a second opinion on its front pass: at its middle point, from the same
/// stand. Plug-in units get none, islands have theirs in the zigzag.</summary>
internal static class DischargeMethod
{
    public static void AddTo(DraftBuilder draft, List<ProbePoint> walked)
    {
        var cases = walked.Where(p => p.Spot != Spot.KickPlate).ToList();
        if (cases.Count == 0) return;
        var middle = cases[cases.Count / 2];
        var kind = draft.Plan.FindFixture(middle.Fixture)!.Kind;
        walked.Insert(walked.IndexOf(middle) + 1, middle with
        {
            Id = draft.IdOf(middle.Fixture!, "D01"),
            Pass = ProbePass.Discharge,
            Spot = Spot.Discharge,
            Height = kind == FixtureKind.ServiceCase ? ProbeHeight.Mid : ProbeHeight.High,
            Note = kind == FixtureKind.DoorCase ? "Discharge air behind the cracked door, at the top." : "Discharge air at the grille.",
        });
    }
}
