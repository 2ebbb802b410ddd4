using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Fields;

namespace StoreMap.App.Documents;

/// <summary>The field's values at places of a file, as <c>map --at</c> gives them.</summary>
internal sealed class FieldValuesOut
{
    private readonly IReadOnlyList<NamedPlace> places;
    private readonly FieldValue[] values;

    private FieldValuesOut(IReadOnlyList<NamedPlace> places, FieldValue[] values)
    {
        (this.places, this.values) = (places, values);
        var text = new StringBuilder("id,x,y,ppm,deviation,low,high,exceedance,known,median\n");
        foreach (var (place, v) in places.Zip(values))
        {
            text.Append(CultureInfo.InvariantCulture, $"{CsvOut.Cell(place.Id ?? "")},{place.At.X:0.######},{place.At.Y:0.######},");
            text.Append(double.IsNaN(v.MeanPpm)
                ? ",,,,,no,\n"
                : string.Create(CultureInfo.InvariantCulture, $"{v.MeanPpm:0.####},{v.DeviationPpm:0.####},{v.LowPpm:0.####},{v.HighPpm:0.####},{v.Exceedance:0.####},{(v.Evidence ? "yes" : "no")},{v.MedianPpm:0.####}\n"));
        }

        Text = text.ToString();
    }

    /// <summary>A CSV: mean net ppm, deviation, 5 and 95 % points, probability of the action level, whether the readings say anything there, and the median, which the map shows.</summary>
    public string Text { get; }

    public static FieldValuesOut Of(VisitJob job, string file)
    {
        using var stream = InputFile.Open(file);
        var places = SampleCsv.ReadPlaces(stream, file);
        var unit = job.Store.Plan.Units;
        var sampler = new FieldSampler(job.Store.Plan, job.Field);
        return new FieldValuesOut(places, [.. places.Select(p => sampler.At(p.At * unit.InMetres()))]);
    }

    public byte[] Csv() => Encoding.UTF8.GetBytes(Text);

    public JsonArray Json() => new([.. places.Zip(values, One)]);

    private static JsonObject One(NamedPlace place, FieldValue v) => new()
    {
        ["id"] = place.Id, ["x"] = place.At.X, ["y"] = place.At.Y, ["ppm"] = Finite(v.MeanPpm), ["deviation"] = Finite(v.DeviationPpm),
        ["low"] = Finite(v.LowPpm), ["high"] = Finite(v.HighPpm), ["exceedance"] = Finite(v.Exceedance), ["known"] = v.Evidence, ["median"] = Finite(v.MedianPpm),
    };

    private static JsonNode? Finite(double value) => double.IsFinite(value) ? Math.Round(value, 4) : null;
}
