using System.Text.Json.Serialization;

namespace StoreMap.Web.Storage;

/// <summary>A store as this device keeps it.</summary>
public sealed record StoreRecord
{
    public required string Id { get; init; }

    public required string Name { get; init; }

    /// <summary>The server's version of the layout; 0 until it was sent.</summary>
    public int Version { get; init; }

    /// <summary>The layout file's text.</summary>
    public required string Document { get; init; }

    /// <summary>True when the layout was changed here and the server has not got it yet.</summary>
    public bool Changed { get; init; }

    /// <summary>Probe points in walking order; null until the route was planned.</summary>
    public IReadOnlyList<string>? Order { get; init; }

    /// <summary>Store time of sign-in that the walk is planned for; null leaves time of day out.</summary>
    public TimeOnly? Begin { get; init; }

    /// <summary>Stops of the walk that stay at their place when it is planned anew; null when none.</summary>
    public IReadOnlyList<string>? Pinned { get; init; }

    /// <summary>Id of the entry that set order, stops and time last, whoever made it; null when nobody did.</summary>
    public string? Walk { get; init; }

    /// <summary>What is left of <see cref="Order"/> when the plan changes: an order that somebody set holds for the points that stay, one that was only
    /// planned is planned anew.</summary>
    internal IReadOnlyList<string>? OrderSet => Walk is null ? null : Order;

    /// <summary>A service record's text as earlier versions kept it; its entries are taken into the journal at the first start.</summary>
    public string? Service { get; init; }
}

/// <summary>A survey as this device keeps it.</summary>
public sealed record SurveyRecord
{
    public required string Id { get; init; }

    public required string Store { get; init; }

    public required DateTimeOffset Started { get; init; }

    /// <summary>Events received from the server so far, by their place.</summary>
    public long Cursor { get; init; }
}

/// <summary>A plan being drawn that was not saved yet. It is apart from the store's record, which holds the saved plan.</summary>
/// <param name="Id">Of the record; made of the store's.</param>
/// <param name="Version">The server's version that it was begun on.</param>
/// <param name="From">The layout that it was begun on; null when there is no draft.</param>
/// <param name="Text">The layout as drawn; null when there is no draft.</param>
public sealed record PlanDraft(string Id, int Version, string? From, string? Text);

/// <summary>How far a store's service journal was received. It is apart from the store's record, which people change.</summary>
/// <param name="Id">Of the record; made of the store's.</param>
/// <param name="Received">Events received from the server so far, by their place.</param>
public sealed record ServiceCursor(string Id, long Received);

/// <summary>This device.</summary>
public sealed record DeviceRecord
{
    public string Id { get; init; } = "device";

    public required string Device { get; init; }

    public string? Technician { get; init; }

    /// <summary>The visit that was open on it last; null before.</summary>
    public string? Visit { get; init; }

    /// <summary>Visits that were open on it before that one and may have left something off, the latest first; null for none.</summary>
    public IReadOnlyList<string>? Earlier { get; init; }

    /// <summary>Delay of the monitor that was logged with last, seconds; null before.</summary>
    public double? DelaySeconds { get; init; }

    /// <summary>What it shows from, ppm; null before.</summary>
    public double? LimitPpm { get; init; }

    /// <summary>Up to where it shows, ppm; null before.</summary>
    public double? RangePpm { get; init; }

    /// <summary>Language code of the sheets; null for English.</summary>
    public string? Language { get; init; }

    /// <summary>The company that sheets name; null for none.</summary>
    public string? Company { get; init; }

    /// <summary>Symbol of the unit in which screens show and take lengths; null for each plan's own.</summary>
    public string? Lengths { get; init; }
}

/// <summary>Everything of one survey in one file, for safe keeping off the device.</summary>
public sealed record BackupFile
{
    public const string FormatName = "storemap-journal/1";

    public string Format { get; init; } = FormatName;

    public required StoreRecord Store { get; init; }

    public required SurveyRecord Survey { get; init; }

    public required IReadOnlyList<string> Events { get; init; }

    /// <summary>The store's service journal.</summary>
    public IReadOnlyList<string> ServiceEvents { get; init; } = [];

    /// <summary>Photos of the visit that this device has.</summary>
    public IReadOnlyList<BackupPhoto> Photos { get; init; } = [];

    /// <summary>Photos of the store's findings that this device has.</summary>
    public IReadOnlyList<BackupPhoto> StorePhotos { get; init; } = [];
}

/// <summary>A photo in a backup file.</summary>
/// <param name="Id">The photo's id.</param>
/// <param name="Jpeg">Its bytes in base64.</param>
public sealed record BackupPhoto(string Id, string Jpeg);

public sealed record EventBatch(string Store, DateTimeOffset Started, IReadOnlyList<string> Events);

public sealed record FindingBatch(IReadOnlyList<string> Events);

public sealed record AppendResult(IReadOnlyList<string> Kept, IReadOnlyList<string> Different);

public sealed record ReceivedEvent(long Received, string Id, string Document);

public sealed record ServerStore(string Id, string Name, int Version);

/// <summary>A store's layouts on the server.</summary>
/// <param name="Version">The latest one's version.</param>
/// <param name="Latest">The latest.</param>
/// <param name="From">The one that this device's was made from; null when it was made apart from the server's.</param>
public sealed record ServerLayouts(int Version, string Latest, string? From);

public sealed record ServerSurvey(string Id, string Store, DateTimeOffset Started, int Events);

public sealed record ServerSession(string? Name, string? Role, bool SignIn, DateTimeOffset Time, string Version);

/// <summary>A device that was in contact with the server.</summary>
/// <param name="Id">As <see cref="DeviceRecord.Device"/>.</param>
/// <param name="Person">Who was signed in on it last.</param>
/// <param name="Seen">When it was last in contact.</param>
/// <param name="Lost">Since when it counts as lost; null when it does not.</param>
public sealed record SeenDevice(string Id, string Person, DateTimeOffset Seen, DateTimeOffset? Lost);

public sealed record ApiProblem(string? Rule, string? Message);

public sealed record SignInRequest(string Name, string Passphrase);

/// <summary>How the records are written, fixed at build so that nothing is lost to trimming.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(StoreRecord))]
[JsonSerializable(typeof(StoreRecord[]))]
[JsonSerializable(typeof(SurveyRecord))]
[JsonSerializable(typeof(SurveyRecord[]))]
[JsonSerializable(typeof(DeviceRecord))]
[JsonSerializable(typeof(BackupFile))]
[JsonSerializable(typeof(EventBatch))]
[JsonSerializable(typeof(FindingBatch))]
[JsonSerializable(typeof(AppendResult))]
[JsonSerializable(typeof(ReceivedEvent[]))]
[JsonSerializable(typeof(ServerStore[]))]
[JsonSerializable(typeof(ServerSurvey[]))]
[JsonSerializable(typeof(ServerSession))]
[JsonSerializable(typeof(ApiProblem))]
[JsonSerializable(typeof(SignInRequest))]
[JsonSerializable(typeof(BackupPhoto[]))]
[JsonSerializable(typeof(SeenDevice[]))]
[JsonSerializable(typeof(PlanDraft))]
[JsonSerializable(typeof(ServiceCursor))]
[JsonSerializable(typeof(Underlay))]
[JsonSerializable(typeof(PreparedUnderlay))]
[JsonSerializable(typeof(string[]))]
internal sealed partial class Json : JsonSerializerContext;
