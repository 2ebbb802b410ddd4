namespace StoreMap.Routing;

/// <summary>Local search on a closed tour by chains of edge exchanges (Lin and Kernighan 1973). Each link of a chain is the
/// best exchange of two or three edges among near neighbours (Helsgaun 2000, there with five edges): two edges, a stretch
/// put elsewhere either way round (Or 1976), or three. A queue of stops worth a look stands in for don't-look bits
/// (Applegate, Cook and Rohe 2003).</summary>
internal sealed class LinKernighan
{
    private const int MostLinks = 3;

    /// <summary>Neighbours tried for the second new edge of a link; the first tries all of its list.</summary>
    private const int SecondNeighbours = 5;

    private readonly double[] _distances;
    private readonly int _count;
    private readonly NeighbourLists _near;
    private readonly ArrayTour _tour;
    private readonly double _least;

    private readonly int[] _queue;
    private readonly bool[] _queued;
    private int _head;
    private int _waiting;

    // Reversals since the last Commit as (from, to) pairs, and the edges added by the chain being tried.
    private int[] _log = new int[1024];
    private int _logged;
    private readonly int[] _added = new int[4 * MostLinks];
    private int _addedEnds;
    private Exchange _link;

    public LinKernighan(double[] distances, int count, NeighbourLists near, ReadOnlySpan<int> order)
    {
        _distances = distances;
        _count = count;
        _near = near;
        _tour = new ArrayTour(order);
        _queue = new int[count];
        _queued = new bool[count];
        // A smaller gain may be rounding, and following it could go round in circles.
        _least = 1e-11 * near.Distances.Max(Math.Abs);
        foreach (var stop in order) Enqueue(stop);
    }

    private enum Shape
    {
        None,

        /// <summary>t2..t4 reversed; t4 is the new end of the path.</summary>
        Reverse,

        /// <summary>The same, and then the stretch from t4 up to t6.</summary>
        ReverseTwice,

        /// <summary>t2..t5 and t6..t3 change places.</summary>
        Swap,

        /// <summary>t2..t6 and t5..t3 each reversed in place.</summary>
        ReverseBoth,
    }

    /// <summary>Edges t3–t4 and t5–t6 go, t2–t3 and t4–t5 come; <c>Gain</c> is what the open path has saved so far.</summary>
    private record struct Exchange(Shape Shape, int T3, int T4, int T5, int T6, double Gain);

    /// <summary>The tour as it stands.</summary>
    public ReadOnlySpan<int> Order => _tour.Order;

    /// <summary>Improves until no queued stop offers anything; returns the length saved.</summary>
    public double Improve()
    {
        var saved = 0.0;
        while (_waiting > 0)
        {
            var stop = _queue[_head];
            if (++_head == _count) _head = 0;
            _waiting--;
            _queued[stop] = false;
            for (var gain = ImproveAt(stop); gain > 0; gain = ImproveAt(stop)) saved += gain;
        }

        return saved;
    }

    /// <summary>Two neighbouring stretches change places: a double bridge that touches only a small part of the tour.</summary>
    /// <param name="before">The stop before the first stretch.</param>
    /// <param name="first">Stops in the first stretch, at least 1.</param>
    /// <param name="second">Stops in the second stretch, at least 1; two more stops than both must exist.</param>
    /// <returns>The length added.</returns>
    public double SwapStretches(int before, int first, int second)
    {
        var b1 = _tour.Next(before);
        var b2 = _tour.Ahead(before, first);
        var c1 = _tour.Next(b2);
        var c2 = _tour.Ahead(before, first + second);
        var after = _tour.Next(c2);
        var added = D(before, c1) + D(c2, b1) + D(b2, after) - D(before, b1) - D(b2, c1) - D(c2, after);
        Swap(b1, b2, c1, c2);
        foreach (var stop in (ReadOnlySpan<int>)[before, b1, b2, c1, c2, after]) Enqueue(stop);
        return added;
    }

    /// <summary>Keeps all changes.</summary>
    public void Commit() => _logged = 0;

    /// <summary>Takes back all changes since the last <see cref="Commit"/>.</summary>
    public void Rollback() => UndoTo(0);

    private double D(int a, int b) => _distances[(a * _count) + b];

    private void Enqueue(int stop)
    {
        if (_queued[stop]) return;
        _queued[stop] = true;
        var at = _head + _waiting++;
        _queue[at >= _count ? at - _count : at] = stop;
    }

    /// <summary>Tries the chains that open an edge at a stop; carries out the first that gains.</summary>
    private double ImproveAt(int t1)
    {
        for (var side = 0; side < 2; side++)
        {
            var start = _logged;
            _addedEnds = 0;
            var t2 = _tour.Next(t1);
            var gain = D(t1, t2);
            for (var link = 0; link < MostLinks; link++)
            {
                var closes = FindLink(t1, t2, gain);
                if (_link.Shape == Shape.None) break;
                CarryOut(t2, in _link);
                gain = _link.Gain;
                t2 = _link.Shape == Shape.Reverse ? _link.T4 : _link.T6;
                if (!closes) continue;
                for (var i = start; i < _logged; i++) Enqueue(_log[i]);
                for (var i = 0; i < _addedEnds; i++) Enqueue(_added[i]);
                Enqueue(t1);
                Enqueue(t2);
                return gain - D(t1, t2);
            }

            UndoTo(start);
            _tour.TurnRound();
        }

        return 0;
    }

    /// <summary>Looks for a link of the chain. The edge t1–t2 is open: a path runs from t2 forward to t1.</summary>
    /// <returns>True when the link found shortens the tour if closed at t1; it is then the first such, else the one with most gain.</returns>
    private bool FindLink(int t1, int t2, double gain)
    {
        _link = new Exchange(Shape.None, 0, 0, 0, 0, double.NegativeInfinity);
        var second = _tour.Next(t2);
        for (int k = t2 * _near.Width, end = k + _near.Width; k < end; k++)
        {
            var rest = gain - _near.Distances[k];
            if (rest <= _least) return false;
            var t3 = _near.Stops[k];
            if (t3 == t1) continue;
            if (t3 != second && FindOnPath(t1, t2, t3, rest)) return true;
            if (FindOnRing(t1, t2, t3, rest)) return true;
        }

        return false;
    }

    /// <summary>t4 before t3: still one path, now from t4.</summary>
    private bool FindOnPath(int t1, int t2, int t3, double gain)
    {
        var t4 = _tour.Previous(t3);
        if (IsAdded(t3, t4)) return false;
        gain += D(t3, t4);
        var closed = gain - D(t4, t1);
        if (closed > _least)
        {
            _link = new Exchange(Shape.Reverse, t3, t4, 0, 0, gain);
            return true;
        }

        for (int k = t4 * _near.Width, end = k + Math.Min(SecondNeighbours, _near.Width); k < end; k++)
        {
            var rest = gain - _near.Distances[k];
            if (rest <= _least) return false;
            var t5 = _near.Stops[k];
            if (t5 == t3) continue;
            // The stop before t5 on the path from t4: t2..t4 now runs backwards.
            var t6 = _tour.IsBetween(t3, t5, t1) ? _tour.Previous(t5) : _tour.Next(t5);
            if (t6 != t4 && Closes(new Exchange(Shape.ReverseTwice, t3, t4, t5, t6, rest + D(t5, t6)), t1)) return true;
        }

        return false;
    }

    /// <summary>t4 after t3: a ring t2..t3 and a path from t4, joined again by opening the ring at t5.</summary>
    private bool FindOnRing(int t1, int t2, int t3, double gain)
    {
        var t4 = _tour.Next(t3);
        if (IsAdded(t3, t4)) return false;
        gain += D(t3, t4);
        for (int k = t4 * _near.Width, end = k + Math.Min(SecondNeighbours, _near.Width); k < end; k++)
        {
            var rest = gain - _near.Distances[k];
            if (rest <= _least) return false;
            var t5 = _near.Stops[k];
            if (!_tour.IsBetween(t2, t5, t3)) continue;
            if (t5 != t3)
            {
                var t6 = _tour.Next(t5);
                if (Closes(new Exchange(Shape.Swap, t3, t4, t5, t6, rest + D(t5, t6)), t1)) return true;
            }

            if (t5 != t2)
            {
                var t6 = _tour.Previous(t5);
                if (Closes(new Exchange(Shape.ReverseBoth, t3, t4, t5, t6, rest + D(t5, t6)), t1)) return true;
            }
        }

        return false;
    }

    private bool Closes(in Exchange link, int t1)
    {
        var closes = link.Gain - D(link.T6, t1) > _least;
        if ((!closes && link.Gain <= _link.Gain) || IsAdded(link.T5, link.T6)) return false;
        _link = link;
        return closes;
    }

    /// <summary>An edge that a chain has added is not taken out by it again, so chains end.</summary>
    private bool IsAdded(int a, int b)
    {
        for (var i = 0; i < _addedEnds; i += 2)
        {
            if ((_added[i] == a && _added[i + 1] == b) || (_added[i] == b && _added[i + 1] == a)) return true;
        }

        return false;
    }

    private void Add(int a, int b)
    {
        _added[_addedEnds++] = a;
        _added[_addedEnds++] = b;
    }

    private void CarryOut(int t2, in Exchange link)
    {
        Add(t2, link.T3);
        if (link.Shape != Shape.Reverse) Add(link.T4, link.T5);
        switch (link.Shape)
        {
            case Shape.Reverse:
                Reverse(t2, link.T4);
                break;
            case Shape.ReverseTwice:
                Reverse(t2, link.T4);
                Reverse(link.T4, link.T6);
                break;
            case Shape.Swap:
                Swap(t2, link.T5, link.T6, link.T3);
                break;
            case Shape.ReverseBoth:
                Reverse(t2, link.T6);
                Reverse(link.T5, link.T3);
                break;
        }
    }

    /// <summary>b1..b2 and c1..c2, neighbours in the tour, change places.</summary>
    private void Swap(int b1, int b2, int c1, int c2)
    {
        Reverse(b1, c2);
        Reverse(c2, c1);
        Reverse(b2, b1);
    }

    private void Reverse(int from, int to)
    {
        if (from == to) return;
        _tour.Reverse(from, to);
        if (_logged == _log.Length) Array.Resize(ref _log, 2 * _log.Length);
        // Turned round, the same stretch leads from its other end.
        _log[_logged++] = _tour.Turned ? to : from;
        _log[_logged++] = _tour.Turned ? from : to;
    }

    private void UndoTo(int logged)
    {
        while (_logged > logged)
        {
            _logged -= 2;
            var (from, to) = _tour.Turned ? (_log[_logged + 1], _log[_logged]) : (_log[_logged], _log[_logged + 1]);
            _tour.Reverse(to, from);
        }
    }
}
