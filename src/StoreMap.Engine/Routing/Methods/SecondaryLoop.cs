using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Cases on a secondary loop hold no refrigerant and get no probe points; the reason is noted.</summary>
internal static class SecondaryLoop
{
    public static void NoteMissing(DraftBuilder draft, Fixture fixture, int left, int kept)
    {
        if (left == 0) return;
        draft.Note(fixture.Id, kept == 0
            ? "Not probed: on a secondary loop, so there is no refrigerant in the case. Check the chiller it hangs on instead."
            : "Part of the case is on a secondary loop and holds no refrigerant; only the other sections are probed.");
    }
}
