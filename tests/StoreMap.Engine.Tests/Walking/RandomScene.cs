using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Walking;

/// <summary>A random small store: 16 x 12 m, boxes and triangles that overlap one another and the walls, and points anywhere in it.</summary>
/// <remarks>Boxes lie on multiples of 1/128 m, triangles and points on odd multiples of 1/256 m: doubles and the lattice hold both
/// exactly, boxes often share edges, and nothing touches a box in a single point, where the oracle would let one pass.</remarks>
internal sealed record RandomScene(List<PlanPoint> Outline, List<IReadOnlyList<PlanPoint>> Obstacles, List<PlanPoint> Points)
{
    private const double Grain = 1.0 / 128;

    private static readonly Gen<PlanPoint> OnGrain =
        Gen.Select(Gen.Int[20, 2020], Gen.Int[20, 1510], (x, y) => new PlanPoint(x * Grain, y * Grain));

    private static readonly Gen<PlanPoint> Place = OnGrain.Select(p => p + new PlanPoint(Grain / 2, Grain / 2));

    private static readonly Gen<IReadOnlyList<PlanPoint>> BoxRing =
        Gen.Select(OnGrain, Gen.Int[30, 600], Gen.Int[30, 600], (p, w, h) => (IReadOnlyList<PlanPoint>)Scene.Box(p.X, p.Y, p.X + (w * Grain), p.Y + (h * Grain)));

    private static readonly Gen<IReadOnlyList<PlanPoint>> Triangle =
        Gen.Select(Place, Place, Place, (a, b, c) => (IReadOnlyList<PlanPoint>)[a, b, c])
            .Where(t => Math.Abs((t[1] - t[0]).Cross(t[2] - t[0])) > 0.5 && t.All(p => t.Max(q => p.DistanceTo(q)) < 7));

    public static readonly Gen<RandomScene> Any = Gen.Select(
        Gen.OneOf(BoxRing, Triangle).List[1, 7], Place.List[4, 7],
        (rings, points) => new RandomScene(Scene.Box(0, 0, 16, 12), rings, points));
}
