namespace StoreMap.Routing;

/// <summary>A closed tour in an array, with the place of each stop; a stretch is reversed by its shorter side.</summary>
internal sealed class ArrayTour
{
    private readonly int[] _order;
    private readonly int[] _place;
    private bool _backwards;

    public ArrayTour(ReadOnlySpan<int> order)
    {
        _order = order.ToArray();
        _place = new int[_order.Length];
        for (var i = 0; i < _order.Length; i++) _place[_order[i]] = i;
    }

    public ReadOnlySpan<int> Order => _order;

    public int Next(int stop) => _backwards ? Before(stop) : After(stop);

    public int Previous(int stop) => _backwards ? After(stop) : Before(stop);

    /// <summary>The stop a number of places further on.</summary>
    public int Ahead(int stop, int places)
    {
        var n = _order.Length;
        var at = _place[stop] + (_backwards ? -places : places);
        return _order[at < 0 ? at + n : at >= n ? at - n : at];
    }

    /// <summary>True when <paramref name="b"/> is met on the way from <paramref name="a"/> forward to <paramref name="c"/>, both included.</summary>
    public bool IsBetween(int a, int b, int c)
    {
        int i = _place[a], j = _place[b], k = _place[c];
        if (_backwards) (i, k) = (k, i);
        return i <= k ? i <= j && j <= k : i <= j || j <= k;
    }

    /// <summary>True after an odd number of <see cref="TurnRound"/>.</summary>
    public bool Turned { get; private set; }

    /// <summary>Turns the reading direction round; the tour stays.</summary>
    public void TurnRound()
    {
        _backwards = !_backwards;
        Turned = !Turned;
    }

    /// <summary>Reverses the stretch that leads from <paramref name="from"/> forward to <paramref name="to"/>, both included.</summary>
    public void Reverse(int from, int to)
    {
        var n = _order.Length;
        var (i, j) = _backwards ? (_place[to], _place[from]) : (_place[from], _place[to]);
        var inside = j - i + 1;
        if (inside <= 0) inside += n;
        var swaps = inside / 2;
        if (inside * 2 > n)
        {
            // The rest of the tour reversed is the same ring read the other way.
            (i, j) = (j + 1 == n ? 0 : j + 1, i == 0 ? n - 1 : i - 1);
            swaps = (n - inside) / 2;
            _backwards = !_backwards;
        }

        for (; swaps > 0; swaps--)
        {
            var (a, b) = (_order[i], _order[j]);
            _order[i] = b;
            _place[b] = i;
            _order[j] = a;
            _place[a] = j;
            if (++i == n) i = 0;
            if (--j < 0) j = n - 1;
        }
    }

    private int After(int stop)
    {
        var at = _place[stop] + 1;
        return _order[at == _order.Length ? 0 : at];
    }

    private int Before(int stop)
    {
        var at = _place[stop] - 1;
        return _order[at < 0 ? _order.Length - 1 : at];
    }
}
