using System.Text.Json;
using System.Text.Json.Serialization;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>A hit as the live answer lists it.</summary>
/// <param name="Place">Where, in words.</param>
/// <param name="Net">Above room, ppm, in words: over range it is at least that.</param>
/// <param name="Point">The probe point; null where it was read at none.</param>
public sealed record HitLine(string Place, string Net, string? Point);

/// <summary>A leak zone in words.</summary>
public sealed record ZoneLine(string Fixture, string Title, string Chance, string Where, string Reason, double X, double Y);

/// <summary>Where to go next.</summary>
/// <param name="Text">In words.</param>
/// <param name="X">Plan metres.</param>
/// <param name="Y">Plan metres.</param>
/// <param name="Fixture">The fixture; null where it is at none.</param>
/// <param name="Along">Metres along its front.</param>
/// <param name="Spot">Where on it, in kebab case.</param>
public sealed record NextLine(string Text, double X, double Y, string? Fixture, double Along, string Spot);

/// <summary>A panel in the order of opening.</summary>
/// <param name="Id">Panel id.</param>
/// <param name="Title">Fixture.</param>
/// <param name="Where">Which panel, from where to where.</param>
/// <param name="Chance">That the leak is behind it, in words.</param>
/// <param name="X">Plan metres.</param>
/// <param name="Y">Plan metres.</param>
public sealed record PanelLine(string Id, string Title, string Where, string Chance, double X, double Y);

/// <summary>A panel that was lifted.</summary>
public sealed record LookLine(string Event, string Panel, string Title, bool Leak, string? Component);

/// <summary>What is known so far, in words and places; of the probe points those that it has readings of.</summary>
public sealed record Answer(
    int Readings, IReadOnlyList<string> Points, IReadOnlyList<HitLine> Hits, IReadOnlyList<ZoneLine> Zones, IReadOnlyList<PanelLine> Order, IReadOnlyList<string> Elsewhere, IReadOnlyList<string> Quiet,
    IReadOnlyList<string> NotProbed, NextLine? Next);

/// <summary>What became of a monitor's log.</summary>
/// <param name="Readings">Its readings in their places, each the body of a journal entry; none when it was refused.</param>
/// <param name="Said">What was odd, or why it was refused.</param>
internal sealed record LogTaken(IReadOnlyList<string> Readings, IReadOnlyList<string> Said);

[JsonSerializable(typeof(LogTaken))]
[JsonSerializable(typeof(Answer))]
internal sealed partial class AnswerJson : JsonSerializerContext;

/// <summary>Turns the engine's answer into words for the screen.</summary>
internal static class AnswerText
{
    // How many times a monitor's own level a leak must reach to be called coarse, and a reading's level to be called raised by gas around it.
    private const double Coarse = 10, Raised = 3;

    public static string Empty { get; } = JsonSerializer.Serialize(new Answer(0, [], [], [], [], [], [], [], null), AnswerJson.Default.Answer);

    public static Answer Read(string text) => JsonSerializer.Deserialize(text, AnswerJson.Default.Answer)!;

    public static string Write(Answer answer) => JsonSerializer.Serialize(answer, AnswerJson.Default.Answer);

    public static Answer Of(Plan plan, NetSurvey net, LocateResult result)
    {
        string Tag(string id) => plan.FindFixture(id)?.Tag ?? PlanPlaces.RoomName(plan, id);
        return new Answer(
            net.Readings.Count, [.. net.Readings.Select(r => r.Reading.Place.Point).OfType<string>().Distinct()],
            [.. net.Readings.Where(r => r.IsHit).OrderByDescending(r => r.NetPpm).Select(r => new HitLine(Say.Place(plan, r.Reading), Say.Net(r), r.Reading.Place.Point))],
            [.. result.Zones.Select(z => Zone(plan, z))], PanelText.Order(plan, result),
            [.. result.Elsewhere.Select(e => e.Unexplained ? $"At {Tag(e.Near)}: {e.Look}." : $"At {Tag(e.Near)}: {Say.Chance(e.Probability)} that the source is outside the case. Look at {e.Look}.")],
            [.. result.NoLeakSeen.Select(n => n.ExplainedBy is { } cause ? $"{Tag(n.Fixture)}: its gas is that of {cause}" : $"{Tag(n.Fixture)}: {Quiet(net, n)}")],
            [.. result.NotProbed.Select(Tag)],
            result.Next is { } next ? new NextLine(Next(plan, next), next.At.X, next.At.Y, next.Fixture, next.Along ?? 0, next.Spot.Kebab()) : null);
    }

    // Without leaks, the readings' own level or their distance from each other decides how large one could be and not show.
    private static string Quiet(NetSurvey net, NoLeakSeen none)
    {
        var levels = net.Readings.Where(r => r.Reading.Place.Fixture == none.Fixture).Select(r => r.DetectionPpm).ToList();
        var least = net.Readings.Select(r => r.DetectionPpm).DefaultIfEmpty(0).Min();
        var why = levels.Count == 0 || none.SmallestSeenPpm < Coarse * least ? ""
            : levels.Min() >= Raised * least ? "; smaller ones hide in the gas that the air there carries already"
            : $"; smaller ones may lie between the {(levels.Count == 1 ? "one point" : $"{levels.Count} points")} read there";
        return $"would show from {Say.Ppm(none.SmallestSeenPpm)} ppm up{why}";
    }

    // Where no fans are to be stopped and no pole is needed, the place and the reason are all there is to say.
    private static string Next(Plan plan, NextProbe next) => next is { Air: AirState.FansOn, Spot: not Spot.Ceiling, Along: { } along } && plan.FindFixture(next.Fixture) is { } fixture
        ? $"Read at the {next.Spot.Kebab().Replace('-', ' ')} of {fixture.Tag}, {Say.Length(plan.Units, fixture.FromLeft(along))} from the left end. No other single reading tells as much about where the leak is, for the time it takes."
        : Say.Sentence(next.Why);

    private static ZoneLine Zone(Plan plan, LeakZone zone)
    {
        var fixture = plan.FindFixture(zone.Fixture)!;
        var where = zone is { From: { } from, To: { } to }
            ? $"{Say.Length(plan.Units, Math.Min(fixture.FromLeft(from), fixture.FromLeft(to)))} to {Say.Length(plan.Units, Math.Max(fixture.FromLeft(from), fixture.FromLeft(to)))} from the left end, facing the case"
            : $"within {Say.Length(plan.Units, zone.Radius ?? 0)} of the mark";
        return new ZoneLine(zone.Fixture, Say.Fixture(fixture), Say.Chance(zone.Probability), where, Say.Sentence(zone.Reason), zone.At.X, zone.At.Y);
    }
}
