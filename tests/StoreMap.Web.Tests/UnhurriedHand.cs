using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A hand on a phone that takes its time: counted, or with <c>STOREMAP_LONG=1</c> really taken.</summary>
internal sealed class UnhurriedHand
{
    private const double SecondsACharacter = 0.2;
    private const double SecondsAPress = 1.5;

    public int Presses { get; private set; }

    public int Characters { get; private set; }

    /// <summary>Seconds that the hand takes and was not really waited for.</summary>
    public double Seconds => (Presses * SecondsAPress) + (Characters * SecondsACharacter) - Waited;

    /// <summary>Seconds that were really waited.</summary>
    public double Waited { get; private set; }

    /// <summary>Finds something and touches it.</summary>
    public async Task Press(ILocator place)
    {
        Presses++;
        await Wait(SecondsAPress);
        await place.TapAsync();
    }

    /// <summary>Touches a field and types into it, key by key.</summary>
    public async Task Type(ILocator field, string text)
    {
        await Press(field);
        foreach (var key in text)
        {
            Characters++;
            await Wait(SecondsACharacter);
            await field.PressSequentiallyAsync(key.ToString());
        }
    }

    private async Task Wait(double seconds)
    {
        if (!Effort.Long) return;
        await Task.Delay(TimeSpan.FromSeconds(seconds), TestContext.Current.CancellationToken);
        Waited += seconds;
    }
}
