namespace StoreMap.Data;

/// <summary>The database holds steps that this version does not know: a later version wrote it.</summary>
/// <param name="file">The database file.</param>
/// <param name="step">The first unknown step.</param>
public sealed class NewerDatabaseException(string file, string step)
    : Exception($"{file} was written by a later version of StoreMap (step {step}). Use that version, or restore an older backup.");
