using System.Runtime.CompilerServices;

namespace StoreMap.Air;

/// <summary>Carries what each supernode subtracts from its ancestors, last in, first out: column-major lower triangles.</summary>
/// <param name="nodes">The pattern.</param>
/// <param name="space">Its arrays are used and grown.</param>
internal sealed class UpdateStack(Supernodes nodes, FactorSpace space)
{
    private readonly Stack<(int Node, int Start)> entries = new();
    private double[] store = space.Updates;
    private double[] own = space.Update;
    private int filled;

    /// <summary>The update of the supernode in hand: rows below by rows below.</summary>
    public Span<double> Own => own;

    /// <summary>Adds the updates of a supernode's children to its panel and to <see cref="Own"/>, and takes them off the stack.</summary>
    public void Gather(int s, Span<double> panel)
    {
        var (width, below) = (nodes.Width(s), nodes.Below(s));
        if (own.Length < below * below) own = space.Update = new double[Math.Max(below * below, 2 * own.Length)];
        Array.Clear(own, 0, below * below);
        while (entries.Count > 0 && nodes.Parent[entries.Peek().Node] == s)
        {
            var (child, start) = entries.Pop();
            Add(child, store.AsSpan(start, filled - start), panel, width, below);
            filled = start;
        }
    }

    /// <summary>Puts <see cref="Own"/> on the stack for the parent.</summary>
    public void Push(int s)
    {
        var length = nodes.Below(s) * nodes.Below(s);
        if (store.Length < filled + length)
        {
            Array.Resize(ref store, Math.Max(filled + length, store.Length + (store.Length / 2)));
            space.Updates = store;
        }

        Array.Copy(own, 0, store, filled, length);
        entries.Push((s, filled));
        filled += length;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Add(int child, ReadOnlySpan<double> update, Span<double> panel, int width, int below)
    {
        var size = nodes.Below(child);
        var to = nodes.Relative.AsSpan(nodes.RowStarts[child], size);
        for (var j = 0; j < size; j++)
        {
            var from = update.Slice(j * size, size);
            var column = to[j] < width
                ? panel.Slice(to[j] * (width + below), width + below)
                : own.AsSpan((to[j] - width) * below, below);
            var shift = to[j] < width ? 0 : width;
            for (var i = j; i < size; i++) column[to[i] - shift] += from[i];
        }
    }
}
