using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Something that two people changed differently.</summary>
/// <param name="Key">Where it stands: a list and an id as in fixtures/C7, or a field of the layout as in outline.</param>
/// <param name="Mine">As one side has it; null when it was taken out there.</param>
/// <param name="Theirs">As the other side has it; null when it was taken out there.</param>
public sealed record LayoutClash(string Key, JsonNode? Mine, JsonNode? Theirs);

/// <summary>Two people's changes to one layout put together by elements and the layout's own fields: what one side left alone is taken from
/// the other, what both changed differently is a clash. The rules are those of a three-way merge (Khanna, Kunal and Pierce, A formal
/// investigation of diff3, 2007) with elements in place of lines.</summary>
public sealed class LayoutMerge
{
    private readonly JsonObject mine;
    private readonly JsonObject theirs;
    private readonly List<string> changed = [];
    private readonly List<(string From, string To)> renamed = [];
    private readonly Dictionary<string, JsonNode?> values = [];

    /// <summary>Compares two sides.</summary>
    /// <param name="from">The layout that both were made from.</param>
    /// <param name="mine">One side, such as what this device has.</param>
    /// <param name="theirs">The other side, such as what the server has.</param>
    public LayoutMerge(JsonObject from, JsonObject mine, JsonObject theirs)
    {
        (this.mine, this.theirs) = (mine.DeepClone().AsObject(), theirs.DeepClone().AsObject());
        TellNewOnesApart(from);
        var (before, here, there) = (Parts(from), Parts(this.mine), Parts(this.theirs));
        var clashes = new List<LayoutClash>();
        foreach (var key in here.Keys.Concat(before.Keys).Distinct())
        {
            var (was, my, their) = (before.GetValueOrDefault(key), here.GetValueOrDefault(key), there.GetValueOrDefault(key));
            if (JsonNode.DeepEquals(my, was) || JsonNode.DeepEquals(my, their)) continue;
            values[key] = my;
            if (JsonNode.DeepEquals(their, was)) changed.Add(key);
            else clashes.Add(new LayoutClash(key, my, their));
        }

        Clashes = clashes;
        Theirs = there.Keys.Concat(before.Keys).Distinct().Count(k => !JsonNode.DeepEquals(before.GetValueOrDefault(k), there.GetValueOrDefault(k)));
    }

    /// <summary>Compares two sides that were not made from one layout: what stands on one side alone is kept, what both have
    /// differently is a clash.</summary>
    /// <param name="mine">One side.</param>
    /// <param name="theirs">The other side.</param>
    public static LayoutMerge OfTwo(JsonObject mine, JsonObject theirs)
    {
        var (from, there) = (new JsonObject(), Parts(theirs));
        foreach (var (key, value) in Parts(mine))
        {
            if (!there.TryGetValue(key, out var other)) continue;
            // Of an element that differs its id alone: one and the same, changed by both.
            if (JsonNode.DeepEquals(value, other)) Set(from, key, value);
            else if (key.Split('/', 2) is [_, var id]) Set(from, key, new JsonObject { ["id"] = id });
        }

        return new LayoutMerge(from, mine, theirs);
    }

    /// <summary>What both changed, differently.</summary>
    public IReadOnlyList<LayoutClash> Clashes { get; }

    /// <summary>Elements and fields that only one's own side changed.</summary>
    public int Mine => changed.Count;

    /// <summary>Elements and fields that the other side changed.</summary>
    public int Theirs { get; }

    /// <summary>New elements of one's own that got another id, since the other side's new one has theirs.</summary>
    public IReadOnlyList<(string From, string To)> Renamed => renamed;

    /// <summary>The two put together; it may have errors, as two cases in one place, which its checks tell.</summary>
    /// <param name="keepMine">Keys of the clashes in which one's own side counts; in the others the other side does.</param>
    public JsonObject Put(params IEnumerable<string> keepMine)
    {
        var root = theirs.DeepClone().AsObject();
        foreach (var key in changed.Concat(Clashes.Select(c => c.Key).Intersect(keepMine))) Set(root, key, values[key]);
        return root;
    }

    private static void Set(JsonObject root, string key, JsonNode? value)
    {
        if (key.Split('/', 2) is not [var list, var id])
        {
            if (value is null) root.Remove(key);
            else root[key] = value.DeepClone();
            return;
        }

        if (root[list] is not JsonArray array) root[list] = array = [];
        var at = array.Index().Where(p => Id(p.Item) == id).Select(p => p.Index).DefaultIfEmpty(-1).First();
        if (value is null && at >= 0) array.RemoveAt(at);
        else if (value is not null && at >= 0) array[at] = value.DeepClone();
        else if (value is not null) array.Add(value.DeepClone());
    }

    // Two new elements are never one and the same because both were given the next free id: one's own gets another.
    private void TellNewOnesApart(JsonObject from)
    {
        var taken = Ids(from).Concat(Ids(mine)).Concat(Ids(theirs)).ToHashSet(StringComparer.Ordinal);
        var (before, there) = (Ids(from).ToHashSet(), Ids(theirs).ToHashSet());
        foreach (var list in LayoutLists.All)
        {
            foreach (var element in Of(mine, list).OfType<JsonObject>())
            {
                if (Id(element) is not { } id || before.Contains(id) || !there.Contains(id)) continue;
                if (Of(theirs, list).Any(t => JsonNode.DeepEquals(t, element))) continue;
                var letters = id.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
                var other = Enumerable.Range(1, taken.Count + 1).Select(n => FormattableString.Invariant($"{letters}{n}")).First(n => taken.Add(n));
                Rename(id, other);
                renamed.Add((id, other));
            }
        }
    }

    private void Rename(string id, string other)
    {
        foreach (var element in LayoutLists.All.SelectMany(l => Of(mine, l)).OfType<JsonObject>())
        {
            foreach (var field in (string[])["id", "circuit", "system", "fixtures"])
            {
                if (element[field].Text() == id) element[field] = other;
                if (element[field] is not JsonArray several) continue;
                for (var i = 0; i < several.Count; i++)
                    if (several[i].Text() == id) several[i] = other;
            }
        }
    }

    private static Dictionary<string, JsonNode> Parts(JsonObject root)
    {
        var parts = new Dictionary<string, JsonNode>(StringComparer.Ordinal);
        foreach (var (name, value) in root)
        {
            if (value is JsonArray array && LayoutLists.All.Contains(name)) foreach (var element in array.OfType<JsonObject>()) parts[$"{name}/{Id(element)}"] = element;
            else if (value is not null) parts[name] = value;
        }

        return parts;
    }

    private static IEnumerable<string> Ids(JsonObject root) => LayoutLists.All.SelectMany(l => Of(root, l)).Select(Id).OfType<string>();

    private static JsonArray Of(JsonObject root, string list) => root[list] as JsonArray ?? [];

    private static string? Id(JsonNode? element) => (element as JsonObject)?["id"].Text();
}

/// <summary>Puts a layout in the place of another, as a merge does.</summary>
/// <param name="Whole">The layout.</param>
public sealed record ReplaceEdit(JsonObject Whole) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        layout.Root.Clear();
        foreach (var (name, value) in Whole) layout.Root[name] = value?.DeepClone();
        return [];
    }
}
