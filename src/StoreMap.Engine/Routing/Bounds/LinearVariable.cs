namespace StoreMap.Routing;

/// <summary>A variable of a linear programme between two bounds, with its sparse column.</summary>
internal sealed class LinearVariable
{
    private int[] rows = new int[4];
    private double[] values = new double[4];
    private int count;

    /// <summary>Cost of one unit.</summary>
    public double Cost { get; init; }

    /// <summary>Least value.</summary>
    public double Lower { get; set; }

    /// <summary>Greatest value.</summary>
    public double Upper { get; set; }

    /// <summary>Reduced cost; 0 while basic.</summary>
    public double Reduced { get; set; }

    /// <summary>True while the basis gives its value.</summary>
    public bool Basic { get; set; }

    /// <summary>True while it stands at its upper bound outside the basis.</summary>
    public bool AtUpper { get; set; }

    /// <summary>Its entry in the pivot row.</summary>
    public double Alpha { get; set; }

    /// <summary>True when it can't move.</summary>
    public bool Fixed => Lower == Upper;

    /// <summary>Its value outside the basis.</summary>
    public double Bound => AtUpper ? Upper : Lower;

    /// <summary>Rows in which it has an entry.</summary>
    public ReadOnlySpan<int> Rows => rows.AsSpan(0, count);

    /// <summary>The entries.</summary>
    public ReadOnlySpan<double> Values => values.AsSpan(0, count);

    /// <summary>Adds an entry in a row that has none yet.</summary>
    public void Add(int row, double value)
    {
        if (count == rows.Length)
        {
            Array.Resize(ref rows, 2 * count);
            Array.Resize(ref values, 2 * count);
        }

        (rows[count], values[count]) = (row, value);
        count++;
    }

    /// <summary>Renumbers the rows; entries in rows numbered below 0 go.</summary>
    public void Renumber(int[] newRow)
    {
        var kept = 0;
        for (var k = 0; k < count; k++)
        {
            if (newRow[rows[k]] < 0) continue;
            (rows[kept], values[kept]) = (newRow[rows[k]], values[k]);
            kept++;
        }

        count = kept;
    }

    /// <summary>Inner product of the column with a vector over the rows.</summary>
    public double Times(double[] vector)
    {
        var sum = 0.0;
        for (var k = 0; k < count; k++) sum += vector[rows[k]] * values[k];
        return sum;
    }
}
