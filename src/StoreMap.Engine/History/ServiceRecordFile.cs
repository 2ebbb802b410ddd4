using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>The unit of every weight in a service record file.</summary>
public enum WeightUnit
{
    /// <summary>Avoirdupois pound, 0.45359237 kg exactly.</summary>
    Pound,

    /// <summary>Kilogram.</summary>
    Kilogram,
}

/// <summary>A service record file, <c>*.service.json</c>: its JSON, and the record read from it. Append-only: entries are added, never
/// changed. Format and rules: docs/formats.md.</summary>
/// <remarks>What was read is written back number for number, with the fields that StoreMap does not know.</remarks>
public sealed class ServiceRecordFile
{
    private ServiceRecordFile(JsonObject root, ServiceRecord record, IReadOnlyList<Problem> warnings) =>
        (Root, Record, Warnings) = (root, record, warnings);

    /// <summary>The file's JSON; not to be changed.</summary>
    public JsonObject Root { get; }

    /// <summary>The record: kilograms, metres.</summary>
    public ServiceRecord Record { get; }

    /// <summary>What was odd, with the default taken; in the order of the file.</summary>
    public IReadOnlyList<Problem> Warnings { get; }

    /// <summary>Starts an empty record.</summary>
    /// <param name="store">Id of the store's layout.</param>
    /// <param name="weights">Unit of every weight.</param>
    /// <param name="lengths">Unit of every length.</param>
    public static ServiceRecordFile New(string store, WeightUnit weights, LengthUnit lengths) =>
        Parse(LayoutWriter.Text(ServiceRecordWriter.Empty(store, weights, lengths)));

    /// <summary>Reads a record.</summary>
    /// <param name="stream">The file: UTF-8, or UTF-16 with a byte order mark; at most 16 MiB.</param>
    /// <param name="file">Its name, for messages; may be null.</param>
    /// <param name="plan">The plan of its store, to check what the record names; null to leave that unchecked.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static ServiceRecordFile Read(Stream stream, string? file = null, Plan? plan = null) => Parse(InputText.Read(stream, file), file, plan);

    /// <summary>Reads a record from its text; see <see cref="Read"/>.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="file">A name for messages; may be null.</param>
    /// <param name="plan">The plan of its store; may be null.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static ServiceRecordFile Parse(string text, string? file = null, Plan? plan = null)
    {
        var problems = new ProblemList(file);
        var root = LayoutText.Parse(text, problems, "service record");
        var record = root is null ? null : new ServiceRecordReader(root, plan, problems).Read();
        if (root is null || record is null || problems.HasErrors) throw new RefusedInputException(problems.All);
        return new ServiceRecordFile(root, record, problems.All);
    }

    /// <summary>Checks a record.</summary>
    /// <param name="stream">The file, as for <see cref="Read"/>.</param>
    /// <param name="file">Its name, for messages; may be null.</param>
    /// <param name="plan">The plan of its store; may be null.</param>
    /// <returns>Every problem, errors and warnings, in the order found; empty when all is well.</returns>
    public static IReadOnlyList<Problem> Check(Stream stream, string? file = null, Plan? plan = null)
    {
        try
        {
            return Read(stream, file, plan).Warnings;
        }
        catch (RefusedInputException refused)
        {
            return refused.Problems;
        }
    }

    /// <summary>The record with an entry added at its end; this one stays as it is.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="plan">The plan of its store; may be null.</param>
    /// <exception cref="RefusedInputException">The entry does not fit the record.</exception>
    public ServiceRecordFile Append(ServiceEntry entry, Plan? plan = null) => Append("entries", ServiceRecordWriter.Entry(entry, Root), plan);

    /// <summary>The record with refrigerant added or recovered written at its end; this one stays as it is.</summary>
    /// <param name="movement">The movement.</param>
    /// <param name="plan">The plan of its store; may be null.</param>
    /// <exception cref="RefusedInputException">The movement does not fit the record.</exception>
    public ServiceRecordFile Append(RefrigerantMovement movement, Plan? plan = null) =>
        Append("movements", ServiceRecordWriter.Movement(movement, Root), plan);

    /// <summary>Writes the file as UTF-8 JSON, LF, without a byte order mark: same record, same bytes.</summary>
    /// <param name="stream">Where to; stays open.</param>
    public void Write(Stream stream) => stream.Write(Encoding.UTF8.GetBytes(LayoutWriter.Text(Root)));

    /// <summary>Checks that this record only adds to an earlier state of itself.</summary>
    /// <param name="earlier">The earlier state.</param>
    /// <param name="file">A name for messages; may be null.</param>
    /// <returns>One error per entry or movement that was changed or taken away; empty when it only adds.</returns>
    public IReadOnlyList<Problem> CheckContinues(ServiceRecordFile earlier, string? file = null)
    {
        var problems = new ProblemList(file);
        foreach (var list in (string[])["entries", "movements"])
        {
            JsonArray? before = earlier.Root[list] as JsonArray, now = Root[list] as JsonArray;
            for (var i = 0; i < (before?.Count ?? 0); i++)
            {
                if (i < (now?.Count ?? 0) && JsonNode.DeepEquals(before![i], now![i])) continue;
                problems.Error($"{list}[{i}]", null, JsonExcerpt.Of(before![i]), "append-only",
                    "This was changed or taken away, but a service record only grows. Put it back as it was, and add a new entry that says what is different.");
            }
        }

        return problems.All;
    }

    private ServiceRecordFile Append(string list, JsonObject item, Plan? plan)
    {
        var root = (JsonObject)Root.DeepClone();
        if (root[list] is not JsonArray array) root[list] = array = [];
        array.Add((JsonNode)item);
        return Parse(LayoutWriter.Text(root), null, plan);
    }
}
