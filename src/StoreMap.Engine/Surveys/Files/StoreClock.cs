using NodaTime;
using NodaTime.Text;

namespace StoreMap.Surveys;

/// <summary>What was odd about a local time.</summary>
internal enum ClockNote
{
    None,

    /// <summary>In the hour that comes twice in autumn.</summary>
    Repeated,

    /// <summary>In the hour that is left out in spring: the monitor's clock had not been put forward.</summary>
    Skipped,
}

/// <summary>Reads the times of one file in file order: ISO 8601 with <c>T</c> or a space; without an offset the store's local time.
/// A repeated hour is told apart by the order of the file. After a time in the skipped hour the clock is known to be behind,
/// so the later times of that day are read by it as well. Rules of the zone: the tz database through NodaTime.</summary>
internal sealed class StoreClock(DateTimeZone zone)
{
    private static readonly LocalDateTimePattern[] Patterns =
    [
        .. new[] { "uuuu-MM-dd'T'HH:mm:ss;FFFFFFFFF", "uuuu-MM-dd'T'HH:mm", "uuuuMMdd'T'HHmmss;FFFFFFFFF", "uuuuMMdd'T'HHmm" }
            .Select(LocalDateTimePattern.CreateWithInvariantCulture),
    ];

    private static readonly OffsetPattern[] Offsets =
        [OffsetPattern.CreateWithInvariantCulture("Z+HH:mm"), OffsetPattern.CreateWithInvariantCulture("Z+HHmm"), OffsetPattern.CreateWithInvariantCulture("Z+HH")];

    private Instant last = Instant.MinValue;
    private (LocalDate Date, Offset Offset)? behind;

    /// <summary>The clock of a zone id; UTC when the id is unknown.</summary>
    public static StoreClock Of(string timeZone, out bool known)
    {
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(timeZone);
        known = zone is not null;
        return new StoreClock(zone ?? DateTimeZone.Utc);
    }

    /// <summary>Reads the next time of the file.</summary>
    /// <returns>The time at the store's offset and what was odd; null when the text is no time between 1980 and 2199.</returns>
    public (DateTimeOffset Time, ClockNote Note)? Read(string text)
    {
        text = text.Trim();
        if (text.Length is < 13 or > 48) return null;
        var offsetText = OffsetOf(text);
        var localText = text[..^offsetText.Length].TrimEnd();
        var gap = localText.IndexOfAny([' ', 't']);
        if (gap > 0) localText = string.Concat(localText.AsSpan(0, gap), "T", localText.AsSpan(gap + 1));
        if (Local(localText) is not { Year: >= 1980 and < 2200 } local) return null;
        if (offsetText.Length == 0)
        {
            var (instant, note) = Resolve(local);
            last = instant;
            return (At(instant), note);
        }

        foreach (var pattern in Offsets)
        {
            if (pattern.Parse(offsetText.ToUpperInvariant()).TryGetValue(default, out var offset))
            {
                last = local.WithOffset(offset).ToInstant();
                return (At(last), ClockNote.None);
            }
        }

        return null;
    }

    /// <summary>The same moment at the store's offset.</summary>
    public DateTimeOffset AtStore(DateTimeOffset time) => At(Instant.FromDateTimeOffset(time));

    private static LocalDateTime? Local(string text)
    {
        foreach (var pattern in Patterns)
        {
            if (pattern.Parse(text).TryGetValue(default, out var local)) return local;
        }

        return null;
    }

    private static string OffsetOf(string text)
    {
        if (text[^1] is 'Z' or 'z') return text[^1..];
        // A minus sign after the date and time parts, or any plus sign, begins an offset.
        var sign = text.LastIndexOfAny(['+', '-']);
        return sign >= 11 ? text[sign..] : "";
    }

    private (Instant, ClockNote) Resolve(LocalDateTime local)
    {
        if (behind is { } b && b.Date == local.Date) return (local.WithOffset(b.Offset).ToInstant(), ClockNote.Skipped);
        var mapping = zone.MapLocal(local);
        if (mapping.Count == 1) return (mapping.Single().ToInstant(), ClockNote.None);
        if (mapping.Count == 0)
        {
            behind = (local.Date, mapping.EarlyInterval.WallOffset);
            return (local.WithOffset(mapping.EarlyInterval.WallOffset).ToInstant(), ClockNote.Skipped);
        }

        var first = mapping.First().ToInstant();
        var second = mapping.Last().ToInstant();
        return (first < last && second >= last ? second : first, ClockNote.Repeated);
    }

    private DateTimeOffset At(Instant instant) => instant.InZone(zone).ToDateTimeOffset();
}
