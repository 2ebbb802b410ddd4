namespace StoreMap;

/// <summary>How much a problem matters: an error makes an answer wrong and stops the work, a warning is met with a safe default.</summary>
public enum Severity
{
    /// <summary>The work goes on with a stated default.</summary>
    Warning,

    /// <summary>The input is refused.</summary>
    Error,
}

/// <summary>One thing wrong with an input, said for a person: what, where, and what to do.</summary>
/// <param name="Severity">Error or warning.</param>
/// <param name="File">The file's name as the user gave it; null when the input has none.</param>
/// <param name="Element">The element: an id such as <c>C3</c>, or a row such as <c>row 12</c>; null for the whole file.</param>
/// <param name="Field">The field or column; null for the whole element.</param>
/// <param name="Value">The offending value as written, at most 80 characters.</param>
/// <param name="Rule">A short stable name of the rule, in kebab case, such as <c>front-on-outline</c>.</param>
/// <param name="Message">One or two sentences: what is wrong, what is allowed, what to do.</param>
public sealed record Problem(
    Severity Severity, string? File, string? Element, string? Field, string? Value, string Rule, string Message)
{
    private const int LongestValue = 40;

    /// <summary>The problem on one line: file, element, field with its value, then the message.</summary>
    public override string ToString() =>
        string.Join(": ", new[] { File, Element, Where(), Message }.Where(part => !string.IsNullOrEmpty(part)));

    // A value that is long or of several lines would bury the message.
    private string? Where() => string.IsNullOrEmpty(Field) || string.IsNullOrEmpty(Value) || Value.Length > LongestValue || Value.Any(char.IsControl)
        ? Field : $"{Field} \"{Value}\"";
}

/// <summary>An input was refused; carries every problem found, not only the first.</summary>
public sealed class RefusedInputException : Exception
{
    /// <summary>Refuses an input.</summary>
    /// <param name="problems">At least one problem of severity error; warnings may ride along.</param>
    public RefusedInputException(IReadOnlyList<Problem> problems)
        : base(string.Join("\n", problems)) => Problems = problems;

    /// <summary>All problems, in the order of the input.</summary>
    public IReadOnlyList<Problem> Problems { get; }
}
