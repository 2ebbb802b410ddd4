using StoreMap.History;

namespace StoreMap.Web.Solving;

/// <summary>A photo of a finding.</summary>
/// <param name="Place">Where the server has it, such as <c>stores/quince</c>.</param>
/// <param name="Photo">Its id.</param>
public sealed record FindingPhoto(string Place, string Photo);

/// <summary>One entry of a finding, in words.</summary>
/// <param name="Event">Id of the entry that can be taken back; null for what a file or a panel tells.</param>
/// <param name="Id">Id of the entry wherever it came from; null for a panel.</param>
/// <param name="Date">Its day.</param>
/// <param name="What">What happened.</param>
/// <param name="Details">More of it, a line each.</param>
/// <param name="Who">By whom; null when not said.</param>
/// <param name="Survey">The visit at which the leak was confirmed; null for other entries.</param>
public sealed record FindingEntry(string? Event, string? Id, string Date, string What, IReadOnlyList<string> Details, string? Who, string? Survey);

/// <summary>A finding of a store.</summary>
/// <param name="Id">Its id in the service record.</param>
/// <param name="Title">The fixture or equipment.</param>
/// <param name="Where">Where on it; empty when not said.</param>
/// <param name="Status">How it stands, in one word.</param>
/// <param name="Stand">How it stands, with days.</param>
/// <param name="Due">What is due and by when; null when nothing is.</param>
/// <param name="Late">True when that day has gone by.</param>
/// <param name="Done">True when nothing is left to do.</param>
/// <param name="Apart">True when entries were made apart.</param>
/// <param name="Entries">Its entries, the oldest first.</param>
/// <param name="TakenBack">Entries that were taken back, in words.</param>
/// <param name="Photos">Its photos.</param>
/// <param name="Latest">Ids that the next entry names.</param>
/// <param name="Steps">Names of <see cref="ServiceStep"/> that may follow.</param>
/// <param name="Now">The finding as it stands.</param>
/// <param name="System">The system that weights go to; null when the plan does not say.</param>
/// <param name="Refrigerant">What it holds.</param>
public sealed record FindingLine(
    string Id, string Title, string Where, string Status, string Stand, string? Due, bool Late, bool Done, bool Apart, IReadOnlyList<FindingEntry> Entries,
    IReadOnlyList<string> TakenBack, IReadOnlyList<FindingPhoto> Photos, IReadOnlyList<string> Latest, IReadOnlyList<string> Steps, ServiceFinding Now, string? System, string? Refrigerant);

/// <summary>All findings of a store.</summary>
/// <param name="Findings">Those with something left to do first, the latest first.</param>
/// <param name="Score">How the order of opening did; null when no leak was confirmed.</param>
/// <param name="Troubles">Entries that were left out, and why.</param>
/// <param name="Record">The service record file.</param>
public sealed record FindingsAnswer(IReadOnlyList<FindingLine> Findings, string? Score, IReadOnlyList<string> Troubles, string Record);
