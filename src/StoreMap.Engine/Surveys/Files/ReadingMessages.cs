using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>What is said about times and numbers, the same for CSV and survey files.</summary>
internal static class ReadingMessages
{
    public static StoreClock ClockOf(Plan plan, SurveyProblems problems)
    {
        var clock = StoreClock.Of(plan.TimeZone, out var known);
        if (!known) problems.Warn(null, null, plan.TimeZone, "time-zone", "The layout's time zone is not known; times were read as UTC.");
        return clock;
    }

    public static void Time(string? element, string field, string? text, SurveyProblems problems) =>
        problems.Error(element, field, text, "reading-time",
            "The time is not readable. Write ISO 8601: 2026-03-04 21:15:00, with T or a space, with or without an offset such as -06:00, "
            + "in the years 1980 to 2199.");

    public static void Clock(ClockNote note, string element, string text, SurveyProblems problems)
    {
        if (note == ClockNote.Repeated)
        {
            problems.Count(element, "time", text, "reading-time-repeated",
                "This local time comes twice, as the clocks were put back. The order of the file tells the two apart.");
        }
        else if (note == ClockNote.Skipped)
        {
            problems.Count(element, "time", text, "reading-time-skipped",
                "This local time was left out, as the clocks were put forward: the monitor's clock was behind. "
                + "Its times from here on that day were read by the old clock.");
        }
    }

    public static void Ppm(string element, string text, SurveyProblems problems) =>
        problems.Error(element, "ppm", text, "reading-ppm",
            "This is not a reading. Write a number of ppm up to 1,000,000, 0 or <1 below the limit, >1000 or over above the range.");
}
