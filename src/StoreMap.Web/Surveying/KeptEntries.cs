using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Web.Surveying;

/// <summary>Entries just kept, which can be taken back at once.</summary>
/// <param name="Entries">Their ids.</param>
/// <param name="What">What they are called.</param>
/// <param name="At">The point they were made at; null for none.</param>
/// <param name="Before">Readings that they took the place of, as they are noted again; null for none.</param>
public sealed record KeptEntries(IReadOnlyList<string> Entries, string What, ProbePoint? At, IReadOnlyList<JsonObject>? Before = null);
