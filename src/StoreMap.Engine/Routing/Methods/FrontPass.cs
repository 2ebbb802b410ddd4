using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Points along a front, no farther apart than the protocol's step.</summary>
internal static class FrontPass
{
    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture, string? note)
    {
        if (fixture.Front is not { } front) return [];
        var number = 0;
        var points = new List<ProbePoint>();
        foreach (var along in Steps.Middles(front.Length, draft.Protocol.FrontStepMetres))
        {
            number++;
            if (!draft.HoldsRefrigerant(fixture, along)) continue;
            var suffix = string.Create(CultureInfo.InvariantCulture, $"F{number:00}");
            points.Add(At(draft, fixture, along, suffix, ProbePass.Front) with { Note = note });
        }

        SecondaryLoop.NoteMissing(draft, fixture, number - points.Count, points.Count);
        return LineDrops.Mark(draft, fixture, points);
    }

    /// <summary>A point on the front with the feet before it.</summary>
    public static ProbePoint At(DraftBuilder draft, Fixture fixture, double along, string suffix, ProbePass pass) =>
        draft.At(draft.IdOf(fixture.Id, suffix), pass, fixture.Front!.PointAt(along), fixture.OutwardAt(along), draft.Protocol.DwellSeconds) with
        {
            Fixture = fixture.Id,
            Along = along,
            Height = draft.Settling(fixture, along),
        };
}
