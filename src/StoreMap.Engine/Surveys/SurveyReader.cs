using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>A survey as read, with what was odd about the file.</summary>
/// <param name="Survey">The survey.</param>
/// <param name="Warnings">Warnings, in the order of the file.</param>
public sealed record SurveyReadResult(Survey Survey, IReadOnlyList<Problem> Warnings);

/// <summary>Reads surveys: a readings CSV is taken wherever a survey file is.</summary>
public static class SurveyReader
{
    /// <summary>Reads a survey against its plan.</summary>
    /// <param name="stream">The file: a readings CSV, or a survey file when it begins with a brace.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="plan">The plan of the store surveyed.</param>
    /// <param name="points">Its probe points, to look up places given by point; may be empty.</param>
    /// <param name="options">Column names and the monitor of a CSV; null takes the defaults.</param>
    /// <returns>The survey, readings in time order and in place, and the warnings.</returns>
    /// <exception cref="RefusedInputException">Anything that would make an answer wrong; all such problems at once.</exception>
    public static SurveyReadResult Read(
        Stream stream, string? file, Plan plan, IReadOnlyList<ProbePoint> points, SurveyReadOptions? options = null)
    {
        using var whole = CsvText.ReadAll(stream, file, new CsvLimits().Bytes);
        if (!BeginsWithBrace(whole.GetBuffer().AsSpan(0, (int)whole.Length)))
        {
            return ReadingsCsv.Read(whole, file, plan, points, options ?? new SurveyReadOptions());
        }

        var document = SurveyDocument.Read(whole, file, plan, points);
        return new SurveyReadResult(document.Survey, document.Warnings);
    }

    private static bool BeginsWithBrace(ReadOnlySpan<byte> bytes)
    {
        // Byte order marks, the zero halves of UTF-16 letters and blanks may stand before it. A slash begins a comment.
        ReadOnlySpan<byte> passedOver = [0xEF, 0xBB, 0xBF, 0xFE, 0xFF, 0, (byte)' ', (byte)'\t', (byte)'\r', (byte)'\n'];
        var at = bytes.IndexOfAnyExcept(passedOver);
        return at >= 0 && bytes[at] is (byte)'{' or (byte)'[' or (byte)'/';
    }
}
