using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A person at keyboard and mouse: does each step on the page and counts what it takes a hand, by the operators of the keystroke-level
/// model (Card, Moran and Newell, "The keystroke-level model for user performance time with interactive systems", 1980): a key of an average
/// typist 0.28 s, pointing 1.1 s, a button pressed or let go 0.1 s, the hand from one to the other 0.4 s, a thought before a step 1.35 s.</summary>
internal sealed class Hand(IPage page)
{
    private const double Key = 0.28, Point = 1.1, Button = 0.1, Home = 0.4, Thought = 1.35;
    private bool onKeys;

    /// <summary>Keys pressed.</summary>
    public int Keys { get; private set; }

    /// <summary>Clicks.</summary>
    public int Clicks { get; private set; }

    /// <summary>Minutes at that pace.</summary>
    public double Minutes { get; private set; }

    public async Task Click(ILocator what, bool thought = true)
    {
        To(false);
        Clicks++;
        Spend((thought ? Thought : 0) + Point + (2 * Button));
        await what.ClickAsync();
    }

    /// <summary>Writes over what stands in a field that has the caret.</summary>
    public async Task Write(string text)
    {
        await Press("Control+a");
        To(true);
        Keys += text.Length;
        Spend(Thought + (text.Length * Key));
        await page.Keyboard.InsertTextAsync(text);
    }

    /// <summary>Clicks into a field and writes over it.</summary>
    public async Task Fill(ILocator field, string text)
    {
        await Click(field);
        await Write(text);
    }

    /// <summary>Presses a key; with another held it counts twice.</summary>
    public async Task Press(string key)
    {
        To(true);
        var count = key.Split('+').Length;
        Keys += count;
        Spend(count * Key);
        await page.Keyboard.PressAsync(key);
    }

    /// <summary>Opens a list and clicks on one of its lines.</summary>
    public async Task Choose(ILocator list, string value)
    {
        To(false);
        Clicks += 2;
        Spend(Thought + (2 * (Point + (2 * Button))));
        await list.SelectOptionAsync(value);
    }

    private void To(bool keys)
    {
        if (keys != onKeys) Spend(Home);
        onKeys = keys;
    }

    private void Spend(double seconds) => Minutes += seconds / 60;
}
