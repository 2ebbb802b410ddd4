using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Simulation;

/// <summary>A technician's walk through a store: the draft's groups one after another, with minutes as in the protocol.</summary>
public static class Walk
{
    private const double PauseSeconds = 3;

    /// <summary>Stops at every point, in the given order.</summary>
    /// <param name="points">Points in walking order.</param>
    /// <param name="startSeconds">Seconds after the visit's start at which the first is reached.</param>
    /// <param name="metresPerSecond">Walking speed.</param>
    /// <param name="air">Air state that the technician writes down.</param>
    public static IReadOnlyList<Stop> Through(
        IReadOnlyList<ProbePoint> points, double startSeconds, double metresPerSecond, AirState air = AirState.FansOn)
    {
        var stops = new List<Stop>();
        var t = startSeconds;
        for (var i = 0; i < points.Count; i++)
        {
            if (i > 0) t += Math.Ceiling((points[i].Stand.DistanceTo(points[i - 1].Stand) / metresPerSecond) + PauseSeconds);
            stops.Add(new Stop(t, points[i].DwellSeconds, points[i], air));
            t += Math.Ceiling(points[i].DwellSeconds);
        }

        return stops;
    }

    /// <summary>The probe points of a store in the order of the draft's groups, backgrounds before what they serve.</summary>
    public static IReadOnlyList<ProbePoint> InDraftOrder(ProbeDraft draft, Func<ProbePoint, bool> wanted)
    {
        var byId = draft.Points.ToDictionary(p => p.Id);
        var ids = new List<string>();
        var backgrounds = draft.Departments.ToDictionary(d => d.Background, d => d.Groups);
        foreach (var group in draft.Groups.OrderBy(g => g.Turn))
        {
            foreach (var (background, served) in backgrounds)
            {
                if (served.Contains(group.Id)) Take(background);
            }

            foreach (var id in group.Points) Take(id);
        }

        return [.. ids.Select(id => byId[id]).Where(wanted)];

        void Take(string id)
        {
            if (!ids.Contains(id)) ids.Add(id);
        }
    }
}
