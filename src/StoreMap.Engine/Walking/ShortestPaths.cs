using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>Dijkstra's search over the corners from one place, on arrays with a binary heap. Holds scratch memory: one per thread.</summary>
/// <remarks>Optimised at the first call: a command makes one matrix, and the untuned first tier took half as long again.</remarks>
internal sealed class ShortestPaths(VisibilityGraph graph)
{
    private readonly int[] heap = new int[graph.NodeCount];
    private readonly int[] slot = new int[graph.NodeCount];
    private int size;

    /// <summary>Metres from the place to each node; infinity when it is not reached.</summary>
    public double[] Distance { get; } = new double[graph.NodeCount];

    /// <summary>The node before each node on its path, -1 when it is seen from the place.</summary>
    public int[] Before { get; } = new int[graph.NodeCount];

    /// <summary>Searches from a place to all nodes.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void From(Attachment start)
    {
        Array.Fill(Distance, double.PositiveInfinity);
        Array.Fill(slot, -1);
        size = 0;
        for (var k = 0; k < start.Nodes.Length; k++) Offer(start.Nodes[k], start.Lengths[k], -1);
        while (size > 0)
        {
            var v = Pop();
            var d = Distance[v];
            for (var k = graph.Start[v]; k < graph.Start[v + 1]; k++) Offer(graph.Neighbour[k], d + graph.Length[k], v);
        }
    }

    /// <summary>The shortest walk from the place searched from to another.</summary>
    /// <returns>Metres, and the last node before the goal, -1 when the walk is straight.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public (double Length, int Last) To(Attachment goal, double straight)
    {
        var (best, last) = (straight, -1);
        for (var k = 0; k < goal.Nodes.Length; k++)
        {
            var length = Distance[goal.Nodes[k]] + goal.Lengths[k];
            if (length < best) (best, last) = (length, goal.Nodes[k]);
        }

        return (best, last);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Offer(int node, double distance, int before)
    {
        // Of equal walks the first found stays, so the answer does not depend on anything but the plan.
        if (distance >= Distance[node]) return;
        Distance[node] = distance;
        Before[node] = before;
        if (slot[node] < 0) slot[node] = size++;
        Up(slot[node], node);
    }

    private int Pop()
    {
        var top = heap[0];
        var last = heap[--size];
        if (size > 0) Down(last);
        return top;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Up(int at, int node)
    {
        var d = Distance[node];
        while (at > 0)
        {
            var parent = (at - 1) >> 1;
            if (Distance[heap[parent]] <= d) break;
            heap[at] = heap[parent];
            slot[heap[at]] = at;
            at = parent;
        }

        heap[at] = node;
        slot[node] = at;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Down(int node)
    {
        var d = Distance[node];
        var at = 0;
        while (true)
        {
            var child = (2 * at) + 1;
            if (child >= size) break;
            if (child + 1 < size && Distance[heap[child + 1]] < Distance[heap[child]]) child++;
            if (Distance[heap[child]] >= d) break;
            heap[at] = heap[child];
            slot[heap[at]] = at;
            at = child;
        }

        heap[at] = node;
        slot[node] = at;
    }
}
