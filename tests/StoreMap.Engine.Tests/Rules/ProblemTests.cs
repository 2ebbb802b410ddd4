namespace StoreMap.Tests.Rules;

/// <summary>A problem on one line says what was written, unless that would bury the message.</summary>
public class ProblemTests
{
    [Theory]
    [InlineData("9Z", "a.csv: row 3: fixture \"9Z\": No such case.")]
    [InlineData(null, "a.csv: row 3: fixture: No such case.")]
    [InlineData("a value of far more than the forty characters that fit", "a.csv: row 3: fixture: No such case.")]
    [InlineData("two\nlines", "a.csv: row 3: fixture: No such case.")]
    public void ToString_OfAProblem_IsOneLineWithTheValue(string? value, string line) =>
        Assert.Equal(line, new Problem(Severity.Error, "a.csv", "row 3", "fixture", value, "reading-fixture", "No such case.").ToString());
}
