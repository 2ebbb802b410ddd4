using System.Globalization;
using System.Text;

namespace StoreMap.Fields;

/// <summary>Writes a field as CSV.</summary>
public static class GridCsv
{
    /// <summary>Writes one row for each cell that the readings speak for, row by row from below.</summary>
    /// <param name="field">The field.</param>
    /// <param name="unit">Unit of the coordinates; the cell's centre.</param>
    /// <returns>Columns x, y, ppm (mean net), deviation, low, high (5 and 95 % points; empty when the field does not carry its log level),
    /// exceedance (probability of the action level), median (what the map shows); comma, decimal point, LF.</returns>
    public static string Write(GasField field, LengthUnit unit)
    {
        var text = new StringBuilder("x,y,ppm,deviation,low,high,exceedance,median\n");
        for (var i = 0; i < field.Grid.Count; i++)
        {
            if (!field.Evidence[i]) continue;
            var p = field.Grid.CentreOf(i);
            text.Append(CultureInfo.InvariantCulture, $"{unit.FromMetres(p.X):0.####},{unit.FromMetres(p.Y):0.####},");
            text.Append(CultureInfo.InvariantCulture, $"{field.MeanPpm[i]:0.###},{field.DeviationPpm[i]:0.###},");
            text.Append(CultureInfo.InvariantCulture, $"{field.Fit?.QuantilePpm(i, 0.05):0.###},{field.Fit?.QuantilePpm(i, 0.95):0.###},");
            text.Append(CultureInfo.InvariantCulture, $"{field.Exceedance[i]:0.###},{field.MedianPpm[i]:0.###}\n");
        }

        return text.ToString();
    }
}
