using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>A survey file: its JSON, and the survey read from it. Format and rules: docs/formats.md.</summary>
/// <remarks>A file that was only read is written back number for number; what StoreMap does not know is kept either way.</remarks>
public sealed class SurveyDocument
{
    private SurveyDocument(JsonObject root, Survey survey, IReadOnlyList<Problem> warnings) =>
        (Root, Survey, Warnings) = (root, survey, warnings);

    /// <summary>The file's JSON; not to be changed.</summary>
    public JsonObject Root { get; }

    /// <summary>The survey.</summary>
    public Survey Survey { get; }

    /// <summary>What was odd, with the default taken.</summary>
    public IReadOnlyList<Problem> Warnings { get; }

    /// <summary>Reads a survey file.</summary>
    /// <param name="stream">UTF-8, or UTF-16 with a byte order mark; comments and trailing commas are tolerated; at most 16 MiB.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="plan">The plan of the store surveyed.</param>
    /// <param name="points">Its probe points, for readings placed by point alone; may be empty.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them, and the warnings, are carried.</exception>
    public static SurveyDocument Read(Stream stream, string? file, Plan plan, IReadOnlyList<ProbePoint> points) =>
        Parse(InputText.Read(stream, file), file, plan, points);

    /// <summary>Makes the file of a survey, lengths in the layout's unit.</summary>
    /// <param name="survey">A survey of the plan's store.</param>
    /// <param name="plan">The plan.</param>
    public static SurveyDocument Of(Survey survey, Plan plan) => new(new SurveyJsonWriter(plan).Write(survey), survey, []);

    /// <summary>Writes the file as UTF-8 JSON, LF, without a byte order mark: same document, same bytes.</summary>
    /// <param name="stream">Where to; stays open.</param>
    public void Write(Stream stream) => stream.Write(Encoding.UTF8.GetBytes(LayoutWriter.Text(Root)));

    internal static SurveyDocument Parse(string text, string? file, Plan plan, IReadOnlyList<ProbePoint> points)
    {
        var problems = new ProblemList(file);
        var root = LayoutText.Parse(text, problems, "survey") ?? throw new RefusedInputException(problems.All);
        var result = SurveyJsonReader.Read(root, file, plan, points);
        return new SurveyDocument(root, result.Survey, result.Warnings);
    }
}
