using System.Globalization;
using System.Runtime.CompilerServices;

namespace StoreMap.Tests;

/// <summary>Runs every test under a culture that writes 1.234,5 so that no number is formatted or parsed by accident of culture.</summary>
internal static class DecimalCommaCulture
{
    [ModuleInitializer]
    [System.Diagnostics.CodeAnalysis.SuppressMessage("Usage", "CA2255", Justification = "Runs before the first test.")]
    internal static void Install()
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = ",";
        culture.NumberFormat.NumberGroupSeparator = ".";
        culture.DateTimeFormat.DateSeparator = ".";
        culture.DateTimeFormat.ShortDatePattern = "dd.MM.yyyy";
        CultureInfo.DefaultThreadCurrentCulture = culture;
        CultureInfo.CurrentCulture = culture;
    }
}
