using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace StoreMap.Routing;

/// <summary>How a solve ended.</summary>
internal enum LinearEnd
{
    /// <summary>At the least cost.</summary>
    Optimal,

    /// <summary>No values satisfy all rows.</summary>
    Infeasible,

    /// <summary>The work allowed is spent; the dual values still give a valid bound.</summary>
    Stopped,
}

/// <summary>Least cost of a linear programme whose variables lie between bounds, by the dual simplex method with an explicit inverse,
/// exact steepest edges and bound flipping (Lemke 1954; Forrest and Goldfarb 1992; Maros 2003). Rows, columns and bounds may change
/// between solves: the basis stays dual feasible, because a variable between bounds always has one that fits the sign of its reduced
/// cost.</summary>
internal sealed class BoxedDualSimplex
{
    private const double Feasible = 1e-9;
    private const double SmallPivot = 1e-9;

    private readonly List<LinearVariable> columns = [];
    private readonly List<LinearVariable> logicals = [];
    private readonly List<double> sides = [];
    private readonly List<LinearVariable> basis = [];
    private readonly List<double> weights = [];
    private double[][] inverse = [];
    private double[] values = [];
    private double[] scratch = [];
    private readonly List<(double Ratio, LinearVariable Variable)> breaks = [];

    /// <summary>The variables added, in order.</summary>
    public IReadOnlyList<LinearVariable> Columns => columns;

    /// <summary>Number of rows.</summary>
    public int RowCount => logicals.Count;

    /// <summary>Multiplications done so far, for budgets.</summary>
    public long Work { get; private set; }

    /// <summary>Dual value of a row.</summary>
    public double Dual(int row) => -logicals[row].Reduced;

    /// <summary>True when a row does not bind.</summary>
    public bool Slack(int row) => logicals[row].Basic;

    /// <summary>Adds a variable; its entries must name rows that exist.</summary>
    public void AddColumn(LinearVariable variable)
    {
        variable.Reduced = variable.Cost;
        for (var k = 0; k < variable.Rows.Length; k++) variable.Reduced -= Dual(variable.Rows[k]) * variable.Values[k];
        columns.Add(variable);
    }

    /// <summary>Adds a row: entries · variables = side, or ≥ side. The entries' columns are extended.</summary>
    public void AddRow(IReadOnlyList<(LinearVariable Variable, double Value)> entries, double side, bool equal)
    {
        var row = logicals.Count;
        EnsureRoom(row + 1);
        // The new logical joins the basis, so the old inverse is bordered by minus the row's basic entries times it.
        var border = inverse[row];
        Array.Clear(border);
        var byVariable = new Dictionary<LinearVariable, double>(entries.Count);
        foreach (var (variable, value) in entries)
        {
            variable.Add(row, value);
            byVariable[variable] = value;
        }

        for (var i = 0; i < row; i++)
        {
            if (byVariable.TryGetValue(basis[i], out var value)) AddScaled(border, inverse[i], -value, row);
        }

        for (var i = 0; i < row; i++) inverse[i][row] = 0;
        border[row] = 1;
        var logical = new LinearVariable { Lower = equal ? 0 : double.NegativeInfinity, Upper = 0, AtUpper = true, Basic = true };
        logical.Add(row, 1);
        logicals.Add(logical);
        basis.Add(logical);
        sides.Add(side);
        weights.Add(Square(border, row + 1));
    }

    /// <summary>Takes out rows that do not bind.</summary>
    /// <param name="rows">Their numbers.</param>
    /// <returns>The new number of each row, -1 for those gone.</returns>
    public int[] RemoveSlackRows(IReadOnlyCollection<int> rows)
    {
        var gone = new bool[RowCount];
        foreach (var row in rows) gone[row] = Slack(row);
        var newRow = new int[RowCount];
        var left = 0;
        for (var i = 0; i < newRow.Length; i++) newRow[i] = gone[i] ? -1 : left++;
        var kept = Enumerable.Range(0, basis.Count).Where(p => !logicals.Any(l => l == basis[p]) || newRow[basis[p].Rows[0]] >= 0).ToArray();
        for (var p = 0; p < kept.Length; p++)
        {
            var from = inverse[kept[p]];
            (inverse[p], inverse[kept[p]]) = (from, inverse[p]);
            for (var i = 0; i < newRow.Length; i++)
            {
                if (newRow[i] >= 0) from[newRow[i]] = from[i];
            }

            basis[p] = basis[kept[p]];
            weights[p] = Square(from, left);
        }

        basis.RemoveRange(left, basis.Count - left);
        weights.RemoveRange(left, weights.Count - left);
        for (var i = 0; i < newRow.Length; i++)
        {
            if (newRow[i] >= 0) (logicals[newRow[i]], sides[newRow[i]]) = (logicals[i], sides[i]);
        }

        logicals.RemoveRange(left, logicals.Count - left);
        sides.RemoveRange(left, sides.Count - left);
        foreach (var variable in columns.Concat(logicals)) variable.Renumber(newRow);
        return newRow;
    }

    /// <summary>Finds the least cost.</summary>
    /// <param name="work">Stops when <see cref="Work"/> reaches this.</param>
    /// <param name="cancel">Stops the work.</param>
    public LinearEnd Solve(long work, CancellationToken cancel)
    {
        Recompute();
        for (var step = 1; ; step++)
        {
            if (Work > work) return LinearEnd.Stopped;
            if (step % 32 == 0) cancel.ThrowIfCancellationRequested();
            var row = LeavingRow();
            if (row < 0) return LinearEnd.Optimal;
            if (!Pivot(row)) return LinearEnd.Infeasible;
            if (step % 500 == 0) Recompute();
        }
    }

    /// <summary>Values of the variables, in the order of <see cref="Columns"/>.</summary>
    public double[] Solution()
    {
        var basic = new Dictionary<LinearVariable, double>();
        for (var i = 0; i < basis.Count; i++) basic[basis[i]] = values[i];
        return [.. columns.Select(c => c.Basic ? basic[c] : c.Bound)];
    }

    private int LeavingRow()
    {
        var (best, most) = (-1, 0.0);
        for (var i = 0; i < basis.Count; i++)
        {
            var off = Math.Max(basis[i].Lower - values[i], values[i] - basis[i].Upper);
            if (off <= Feasible) continue;
            var score = off * off / weights[i];
            if (score > most) (best, most) = (i, score);
        }

        return best;
    }

    private bool Pivot(int row)
    {
        var leaving = basis[row];
        var below = values[row] < leaving.Lower;
        var sign = below ? 1 : -1;
        var pivotRow = inverse[row];
        var entering = Entering(pivotRow, sign, below ? leaving.Lower - values[row] : values[row] - leaving.Upper, out var step);
        if (entering is null) return false;
        foreach (var variable in columns) Shift(variable);
        foreach (var variable in logicals) Shift(variable);
        leaving.Reduced = sign * step;
        entering.Reduced = 0;
        var column = scratch;
        var n = basis.Count;
        for (var i = 0; i < n; i++) column[i] = entering.Times(inverse[i]);
        var move = (values[row] - (below ? leaving.Lower : leaving.Upper)) / column[row];
        for (var i = 0; i < n; i++) values[i] -= move * column[i];
        values[row] = entering.Bound + move;
        UpdateInverse(row, column);
        (leaving.Basic, leaving.AtUpper, entering.Basic) = (false, !below, true);
        basis[row] = entering;
        return true;

        void Shift(LinearVariable variable)
        {
            if (!variable.Basic) variable.Reduced += step * sign * variable.Alpha;
        }
    }

    /// <summary>The dual ratio test: bounds are flipped as long as that still pays.</summary>
    private LinearVariable? Entering(double[] pivotRow, int sign, double off, out double step)
    {
        breaks.Clear();
        foreach (var variable in columns) Look(variable);
        foreach (var variable in logicals) Look(variable);
        Work += 8L * columns.Count;
        breaks.Sort((a, b) => a.Ratio != b.Ratio ? a.Ratio.CompareTo(b.Ratio) : Math.Abs(b.Variable.Alpha).CompareTo(Math.Abs(a.Variable.Alpha)));
        step = 0;
        var slope = off;
        var chosen = -1;
        for (var k = 0; k < breaks.Count && chosen < 0; k++)
        {
            var variable = breaks[k].Variable;
            slope -= Math.Abs(variable.Alpha) * (variable.Upper - variable.Lower);
            if (slope <= 0) chosen = k;
        }

        if (chosen < 0) return null;
        // Of those with next to the same ratio the largest entry makes the steadiest pivot.
        var limit = breaks[chosen].Ratio + 1e-10;
        var pivot = chosen;
        for (var k = chosen + 1; k < breaks.Count && breaks[k].Ratio <= limit; k++)
        {
            if (Math.Abs(breaks[k].Variable.Alpha) > 4 * Math.Abs(breaks[pivot].Variable.Alpha)) pivot = k;
        }

        step = breaks[pivot].Ratio;
        Flip(breaks.Take(chosen).Select(b => b.Variable));
        return breaks[pivot].Variable;

        void Look(LinearVariable variable)
        {
            if (variable.Basic) return;
            variable.Alpha = variable.Times(pivotRow);
            if (variable.Fixed) return;
            var towards = -sign * variable.Alpha;
            if (variable.AtUpper ? towards >= -SmallPivot : towards <= SmallPivot) return;
            breaks.Add((Math.Max(0, variable.Reduced / towards), variable));
        }
    }

    private void Flip(IEnumerable<LinearVariable> flipped)
    {
        var change = new double[RowCount];
        var any = false;
        foreach (var variable in flipped)
        {
            var by = variable.AtUpper ? variable.Lower - variable.Upper : variable.Upper - variable.Lower;
            variable.AtUpper = !variable.AtUpper;
            for (var k = 0; k < variable.Rows.Length; k++) change[variable.Rows[k]] += variable.Values[k] * by;
            any = true;
        }

        if (!any) return;
        for (var i = 0; i < basis.Count; i++) values[i] -= Dot(inverse[i], change, RowCount);
        Work += (long)RowCount * RowCount;
    }

    private void UpdateInverse(int row, double[] column)
    {
        var n = basis.Count;
        var pivotRow = inverse[row];
        var by = 1 / column[row];
        for (var k = 0; k < n; k++) pivotRow[k] *= by;
        weights[row] = Square(pivotRow, n);
        for (var i = 0; i < n; i++)
        {
            if (i == row || Math.Abs(column[i]) < 1e-14) continue;
            AddScaled(inverse[i], pivotRow, -column[i], n);
            weights[i] = Square(inverse[i], n);
            Work += 2 * n;
        }
    }

    /// <summary>Fresh reduced costs, the bounds that fit them, and fresh values.</summary>
    private void Recompute()
    {
        var n = RowCount;
        EnsureRoom(n);
        var dual = new double[n];
        for (var i = 0; i < n; i++)
        {
            if (basis[i].Cost != 0) AddScaled(dual, inverse[i], basis[i].Cost, n);
        }

        var left = CollectionsMarshal.AsSpan(sides).ToArray();
        foreach (var variable in columns.Concat(logicals))
        {
            variable.Reduced = variable.Basic ? 0 : variable.Cost - variable.Times(dual);
            if (variable.Basic) continue;
            if (!variable.Fixed && double.IsFinite(variable.Lower) && Math.Abs(variable.Reduced) > Feasible) variable.AtUpper = variable.Reduced < 0;
            for (var k = 0; k < variable.Rows.Length; k++) left[variable.Rows[k]] -= variable.Values[k] * variable.Bound;
        }

        for (var i = 0; i < n; i++) values[i] = Dot(inverse[i], left, n);
        Work += 2L * n * n;
    }

    private void EnsureRoom(int rows)
    {
        if (rows <= inverse.Length) return;
        var room = Math.Max(rows, inverse.Length * 3 / 2);
        var old = inverse.Length;
        Array.Resize(ref inverse, room);
        for (var i = 0; i < room; i++)
        {
            if (i < old) Array.Resize(ref inverse[i], room);
            else inverse[i] = new double[room];
        }

        Array.Resize(ref values, room);
        Array.Resize(ref scratch, room);
    }

    // Vector128 keeps the order of summing the same on every machine.
    private static void AddScaled(double[] to, double[] from, double by, int n)
    {
        var k = 0;
        var factor = Vector128.Create(by);
        ref var a = ref MemoryMarshal.GetArrayDataReference(to);
        ref var b = ref MemoryMarshal.GetArrayDataReference(from);
        for (; k + 1 < n; k += 2) (Vector128.LoadUnsafe(ref a, (nuint)k) + (factor * Vector128.LoadUnsafe(ref b, (nuint)k))).StoreUnsafe(ref a, (nuint)k);
        if (k < n) to[k] += by * from[k];
    }

    private static double Square(double[] a, int n) => Dot(a, a, n);

    private static double Dot(double[] a, double[] b, int n)
    {
        var sum = Vector128<double>.Zero;
        ref var x = ref MemoryMarshal.GetArrayDataReference(a);
        ref var y = ref MemoryMarshal.GetArrayDataReference(b);
        var k = 0;
        for (; k + 1 < n; k += 2) sum += Vector128.LoadUnsafe(ref x, (nuint)k) * Vector128.LoadUnsafe(ref y, (nuint)k);
        return Vector128.Sum(sum) + (k < n ? a[k] * b[k] : 0);
    }
}
