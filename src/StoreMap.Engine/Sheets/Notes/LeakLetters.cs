namespace StoreMap.Sheets;

/// <summary>The letters of what a visit located: its leak zones in their order, then the sources outside the cases. Map, list, cards, report and
/// comparison all take them from here. A letter is one visit's; places that only earlier visits of a comparison had have letters from the end of the
/// alphabet, so that none of them has one that a visit's map has for something else.</summary>
public static class LeakLetters
{
    private const int Alphabet = 26;

    /// <summary>A, B, …, Z, AA, AB, ….</summary>
    /// <param name="index">Of a zone in <see cref="Zones.LocateResult.Zones"/>; of a source outside the cases in <see cref="Zones.LocateResult.Elsewhere"/>, more by the number of zones.</param>
    public static string Of(int index) =>
        (index >= Alphabet ? ((char)('A' + (index / Alphabet) - 1)).ToString() : "") + (char)('A' + (index % Alphabet));

    /// <summary>Z, Y, X, … down to those that the latest visit has, then ZZ, ZY, ….</summary>
    /// <param name="index">Of a place that only earlier visits had.</param>
    /// <param name="taken">How many letters the latest visit has.</param>
    public static string Earlier(int index, int taken) =>
        Of(Alphabet - 1 - index >= taken ? Alphabet - 1 - index : (Alphabet * (Alphabet + 1)) - 1 - index);
}
