namespace StoreMap.Web.Desk;

/// <summary>The things chosen on the plan, and which of them is to be brought into sight.</summary>
internal sealed class PlanChoice
{
    private (string Id, bool Page)? sought;

    /// <summary>Their ids.</summary>
    public HashSet<string> Ids { get; } = [];

    /// <summary>Chooses these and no others.</summary>
    public void Choose(IReadOnlyList<string> ids)
    {
        Ids.Clear();
        Ids.UnionWith(ids);
    }

    public void Clear() => Ids.Clear();

    /// <summary>Lets go of what is no more.</summary>
    public void Keep(Predicate<string> isThere) => Ids.RemoveWhere(id => !isThere(id));

    /// <summary>Adds a thing to what is chosen, or takes it out again.</summary>
    public void Flip(string id)
    {
        if (Ids.Remove(id)) return;
        Ids.Add(id);
        sought = (id, false);
    }

    /// <summary>Chooses a thing that the page may move for; null for the store.</summary>
    public void Jump(string? element)
    {
        Choose(element is null ? [] : [element]);
        if (element is not null) sought = (element, true);
    }

    /// <summary>What is to be brought into sight, once, and whether the page may move for it.</summary>
    public (string Id, bool Page)? TakeSought()
    {
        var now = sought;
        sought = null;
        return now;
    }
}
