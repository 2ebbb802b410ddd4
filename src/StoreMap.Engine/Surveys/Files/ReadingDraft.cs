namespace StoreMap.Surveys;

/// <summary>A reading whose number still waits for the limits of its monitor.</summary>
/// <param name="Element">Its row or index for messages.</param>
/// <param name="Reading">All but the number.</param>
/// <param name="Text">The number as written.</param>
internal readonly record struct ReadingDraft(string Element, Reading Reading, PpmText Text);
