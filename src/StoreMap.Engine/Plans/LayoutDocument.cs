using System.Text;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>A layout file: the JSON as it was read, and the plan derived from it.</summary>
/// <remarks>Untouched numbers and fields that StoreMap does not know are written back as they were read; comments are not.
/// Format and rules: docs/formats.md.</remarks>
public sealed class LayoutDocument
{
    private LayoutDocument(JsonObject root, Plan plan, IReadOnlyList<Problem> warnings) => (Root, Plan, Warnings) = (root, plan, warnings);

    /// <summary>The layout's JSON. A change here shows in <see cref="Write"/>, not in <see cref="Plan"/>: read the document anew with <see cref="FromJson"/>.</summary>
    public JsonObject Root { get; }

    /// <summary>The plan: metres, defaults filled in.</summary>
    public Plan Plan { get; }

    /// <summary>What was odd, with the default taken; in the order of the file.</summary>
    public IReadOnlyList<Problem> Warnings { get; }

    /// <summary>Reads a layout.</summary>
    /// <param name="stream">The file: UTF-8, or UTF-16 with a byte order mark; comments and trailing commas are tolerated; at most 16 MiB.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static LayoutDocument Read(Stream stream, string? fileName = null) => Refuse(TryRead(stream, fileName, out var document), document);

    /// <summary>Reads a layout from its text; see <see cref="Read"/>.</summary>
    /// <param name="text">The layout's text.</param>
    /// <param name="fileName">A name for messages; may be null.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static LayoutDocument Parse(string text, string? fileName = null) => Refuse(TryParse(text, fileName, out var document), document);

    /// <summary>Reads again a layout that was read without an error before, such as one that is kept: what rules say of fixtures, walls and drops
    /// together is not gone through anew, which is most of the work, and a rule that came later does not lock out what is there.</summary>
    /// <param name="text">The layout's text.</param>
    /// <exception cref="RefusedInputException">A value in it can't be read.</exception>
    public static LayoutDocument Reread(string text) => Refuse(TryParse(text, null, false, out var document), document);

    /// <summary>Makes a document of JSON built or changed in memory; it is checked like a file.</summary>
    /// <param name="root">The layout; copied, so later changes to it do not show.</param>
    /// <param name="fileName">A name for messages; may be null.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static LayoutDocument FromJson(JsonObject root, string? fileName = null) => Parse(LayoutWriter.Text(root), fileName);

    /// <summary>Reads a layout without throwing.</summary>
    /// <param name="stream">The file, as for <see cref="Read"/>.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <param name="document">The document; null when there is an error.</param>
    /// <returns>Every problem, errors and warnings, in the order found.</returns>
    public static IReadOnlyList<Problem> TryRead(Stream stream, string? fileName, out LayoutDocument? document)
    {
        document = null;
        string text;
        try
        {
            text = InputText.Read(stream, fileName);
        }
        catch (RefusedInputException refused)
        {
            return refused.Problems;
        }

        return TryParse(text, fileName, out document);
    }

    /// <summary>Reads a layout from its text without throwing; see <see cref="TryRead"/>.</summary>
    /// <param name="text">The layout's text.</param>
    /// <param name="fileName">A name for messages; may be null.</param>
    /// <param name="document">The document; null when there is an error.</param>
    /// <returns>Every problem, errors and warnings, in the order found.</returns>
    public static IReadOnlyList<Problem> TryParse(string text, string? fileName, out LayoutDocument? document) => TryParse(text, fileName, true, out document);

    /// <summary>Checks a layout; see <see cref="TryRead"/>.</summary>
    /// <param name="stream">The file, as for <see cref="Read"/>.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <returns>Every problem, errors and warnings, in the order found; empty when all is well.</returns>
    public static IReadOnlyList<Problem> Check(Stream stream, string? fileName = null) => TryRead(stream, fileName, out _);

    /// <summary>Writes the layout as UTF-8 JSON, LF, without a byte order mark: same document, same bytes.</summary>
    /// <param name="stream">Where to; stays open.</param>
    public void Write(Stream stream) => stream.Write(Encoding.UTF8.GetBytes(LayoutWriter.Text(Root)));

    /// <summary>The same document, its warnings after earlier ones.</summary>
    internal LayoutDocument After(IReadOnlyList<Problem> earlier) => new(Root, Plan, [.. earlier, .. Warnings]);

    private static IReadOnlyList<Problem> TryParse(string text, string? fileName, bool byRules, out LayoutDocument? document)
    {
        document = null;
        var problems = new ProblemList(fileName);
        var root = LayoutText.Parse(text, problems);
        var plan = root is null ? null : PlanReader.Read(root, byRules, problems);
        if (root is not null && plan is not null && !problems.HasErrors) document = new LayoutDocument(root, plan, problems.All);
        return problems.All;
    }

    private static LayoutDocument Refuse(IReadOnlyList<Problem> problems, LayoutDocument? document) => document ?? throw new RefusedInputException(problems);
}
