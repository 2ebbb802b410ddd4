using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>A route planned before, as its document tells it.</summary>
/// <param name="Order">Point ids in walking order, each once.</param>
/// <param name="Points">The points, feet on free floor. Metres.</param>
/// <param name="Home">Where the walk ends: the first point of a closed walk, or what a replanned one returned to; null when it ends at its
/// last point.</param>
public sealed record EarlierRoute(IReadOnlyList<string> Order, IReadOnlyList<ProbePoint> Points, ProbePoint? Home)
{
    /// <summary>A route just made.</summary>
    public static EarlierRoute Of(Route route) => new(
        route.Order, route.Points, route.Replanned is { } r ? r.Home : route.Closed && route.Order.Count > 0 ? route.Points.First(p => p.Id == route.Order[0]) : null);

    /// <summary>Reads a route's document.</summary>
    /// <param name="stream">What <c>route --json</c> printed, or the <c>route.json</c> it wrote.</param>
    /// <param name="file">Its name for messages.</param>
    /// <exception cref="RefusedInputException">It is no such document; all faults at once.</exception>
    public static EarlierRoute Read(Stream stream, string? file)
    {
        var problems = new List<Problem>();
        if (Parse(InputText.Read(stream, file)) is not { } json)
            throw new RefusedInputException([Fault(null, null, "json", "The file is no JSON object. Give the route.json that route --out wrote, or what route --json printed.")]);
        var unit = LengthUnits.FromSymbol(json["units"].Text());
        if (unit is null) problems.Add(Fault(null, "units", "units", "units must be m, ft, in or mm, as route writes it."));
        var points = new List<ProbePoint>();
        foreach (var (node, i) in (json["points"] as JsonArray ?? []).Select((n, i) => (n, i)))
        {
            if (Point(node, unit ?? LengthUnit.Metre) is { } point) points.Add(point);
            else problems.Add(Fault(FormattableString.Invariant($"points[{i}]"), null, "route-point", "A point needs id, pass, at and stand, as route writes them."));
        }

        var known = points.Select(p => p.Id).ToHashSet();
        if (known.Count < points.Count) problems.Add(Fault(null, "points", "id-unique", "An id is given to two points."));
        List<string?> order = [.. (json["order"] as JsonArray ?? []).Select(JsonTexts.Text)];
        if (order.Count == 0) problems.Add(Fault(null, "order", "route-order", "The order names no point. Is it a route's document?"));
        if (order.Exists(id => id is null || !known.Contains(id)) || order.Distinct().Count() < order.Count)
            problems.Add(Fault(null, "order", "route-order", "The order must name points of the list, each once."));
        if (problems.Count > 0) throw new RefusedInputException(problems);

        var closed = json["closed"]?.GetValueKind() == JsonValueKind.True;
        var home = json["replanned"] is JsonObject again ? Point(again["home"], unit!.Value) : closed ? points.First(p => p.Id == order[0]) : null;
        return new([.. order.Select(id => id!)], points, home);

        Problem Fault(string? element, string? field, string rule, string message) => new(Severity.Error, file, element, field, null, rule, message);
    }

    private static JsonObject? Parse(string text)
    {
        try
        {
            return JsonNode.Parse(text, null, new JsonDocumentOptions { MaxDepth = 32, CommentHandling = JsonCommentHandling.Skip }) as JsonObject;
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            return null;
        }
    }

    private static ProbePoint? Point(JsonNode? node, LengthUnit unit)
    {
        if (node is not JsonObject o || o["id"].Text() is not { Length: > 0 and <= 32 } id) return null;
        if (KebabNames.Parse<ProbePass>(o["pass"].Text()) is not { } pass || Place(o["at"]) is not { } at || Place(o["stand"]) is not { } stand) return null;
        return new ProbePoint
        {
            Id = id, Fixture = o["fixture"].Text(), Equipment = o["equipment"].Text(), Room = o["room"].Text(), Pass = pass, At = at, Stand = stand,
            Spot = KebabNames.Parse<Spot>(o["spot"].Text()) ?? Spot.Front, Height = KebabNames.Parse<ProbeHeight>(o["height"].Text()) ?? ProbeHeight.Mid,
            DwellSeconds = Number(o["dwellSeconds"]) is { } s and >= 0 and < 86_400 ? s : 0,
        };

        PlanPoint? Place(JsonNode? place) => place is JsonArray { Count: 2 } xy && Number(xy[0]) is { } x && Number(xy[1]) is { } y
            && Math.Max(Math.Abs(x), Math.Abs(y)) < 1e9 ? new(x * unit.InMetres(), y * unit.InMetres()) : null;
    }

    private static double? Number(JsonNode? node) => node?.GetValueKind() == JsonValueKind.Number && node.GetValue<double>() is var n && double.IsFinite(n) ? n : null;
}
