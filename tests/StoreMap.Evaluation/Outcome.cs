using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>What the survey had gone through when the readings were judged.</summary>
public enum Stage
{
    /// <summary>Coarse pass, fans on.</summary>
    Coarse,

    /// <summary>Coarse and close-in passes, fans on.</summary>
    CloseIn,

    /// <summary>All passes, with fans off at 2 ft.</summary>
    FansOff,

    /// <summary>A continuous log walked both ways, nothing else.</summary>
    Continuous,
}

/// <summary>Who gave the answer.</summary>
public enum Method
{
    /// <summary>The leak locator.</summary>
    StoreMap,

    /// <summary>The highest reading on a fixture.</summary>
    Habit,

    /// <summary>The highest value of ordinary kriging along the fronts.</summary>
    Kriging,

    /// <summary>The middle of the fixture with the highest reading.</summary>
    FixtureCentre,
}

/// <summary>How one method answered for one single leak at one stage.</summary>
/// <param name="Method">Who.</param>
/// <param name="Stage">With what readings.</param>
/// <param name="RightFixture">The first place named lies on the leak's fixture.</param>
/// <param name="ErrorFeet">Feet from the first place named to the leak; infinite when none was named.</param>
/// <param name="PanelsOpened">Panels opened until the leak was found; null in a walk-in.</param>
public sealed record PlaceAnswer(Method Method, Stage Stage, bool RightFixture, double ErrorFeet, int? PanelsOpened);

/// <summary>How the locator's zone on a single leak's own fixture stands to the leak.</summary>
/// <param name="Stage">With what readings.</param>
/// <param name="Probability">Probability stated that the leak exists.</param>
/// <param name="Covered">The stated interval holds the leak.</param>
/// <param name="WidthFeet">Width of the interval, or diameter in a walk-in, ft.</param>
/// <param name="HalfCovered">The shortest half of the stated density holds the leak; null without a density.</param>
/// <param name="Rank">Share of the stated density at lower distances than the leak; null without a density.</param>
public sealed record ZoneAnswer(Stage Stage, double Probability, bool Covered, double WidthFeet, bool? HalfCovered, double? Rank);

/// <summary>A stated probability and whether it came true.</summary>
/// <param name="Stage">With what readings.</param>
/// <param name="Panel">True for a panel's probability, false for a zone's.</param>
/// <param name="Probability">As stated.</param>
/// <param name="True">Whether it was so.</param>
public sealed record Claim(Stage Stage, bool Panel, double Probability, bool True);

/// <summary>A leak of about twice the smallest that the clean twin of its store was said to show.</summary>
/// <param name="Stage">With what readings.</param>
/// <param name="StatedPpm">Smallest net ppm stated for the leak's fixture.</param>
/// <param name="Reported">The leak's fixture has a zone, or gas from elsewhere is reported near it.</param>
/// <param name="Zone">The leak's fixture has a zone.</param>
public sealed record TwiceSmallest(Stage Stage, double StatedPpm, bool Reported, bool Zone);

/// <summary>What a store with anything but a single leak came to at one stage.</summary>
/// <param name="Stage">With what readings.</param>
/// <param name="Zones">Zones listed.</param>
/// <param name="LikelyZones">Zones of probability one half or more.</param>
/// <param name="LikelyCaseZones">Those of them on a case.</param>
/// <param name="Elsewhere">Highest probability given to a source elsewhere.</param>
/// <param name="FirstFound">The first of two leaks was found.</param>
/// <param name="SecondFound">The second was found.</param>
/// <param name="BothListed">Both have a zone of their own, however improbable.</param>
/// <param name="BothNear">Both were found, a zone within 4 ft across a joint of the line-up counted too.</param>
public sealed record StoreAnswer(
    Stage Stage, int Zones, int LikelyZones, int LikelyCaseZones, double Elsewhere, bool FirstFound, bool SecondFound, bool BothListed, bool BothNear);

/// <summary>Everything measured on one store.</summary>
public sealed record Outcome
{
    /// <summary>The store.</summary>
    public required SimulatedStore Store { get; init; }

    /// <summary>Per leak, the highest ppm it alone brings to a coarse probe point of its own fixture (anywhere, for off-case sources).</summary>
    public required IReadOnlyList<double> CoarsePpm { get; init; }

    /// <summary>Each leak brings most of the gas to a coarse probe point of its own fixture, and 2 ppm or more.</summary>
    public required bool StandOut { get; init; }

    /// <summary>Readings after each stop stage: coarse, close-in, fans off.</summary>
    public required IReadOnlyList<int> Readings { get; init; }

    /// <summary>Answers for the place of a single leak.</summary>
    public List<PlaceAnswer> Places { get; } = [];

    /// <summary>Answers for its place of one who knows all but place and strength; empty in walk-ins.</summary>
    public IReadOnlyList<KnowingAnswer> Knowing { get; set; } = [];

    /// <summary>What was answered, in short, stage by stage.</summary>
    public Dictionary<Stage, string> Said { get; } = [];

    /// <summary>Zones on the leak's fixture.</summary>
    public List<ZoneAnswer> Zones { get; } = [];

    /// <summary>Stated probabilities.</summary>
    public List<Claim> Claims { get; } = [];

    /// <summary>The smallest-leak test; null where it does not apply.</summary>
    public TwiceSmallest? Twice { get; set; }

    /// <summary>The visit that followed the next best probe; null where none was made.</summary>
    public AdvisedAnswer? Advised { get; set; }

    /// <summary>Answers of stores without or with several leaks.</summary>
    public List<StoreAnswer> Stores { get; } = [];

    /// <summary>Seconds spent locating, per locate.</summary>
    public List<double> LocateSeconds { get; } = [];

    /// <summary>Seconds spent simulating.</summary>
    public double SimulateSeconds { get; set; }

    /// <summary>A leak is called detectable when, without sensor and flicker, it brings 2 ppm or more to a coarse probe point of its fixture.</summary>
    public bool Detectable => CoarsePpm.Count > 0 && CoarsePpm.All(p => p >= LeakShares.ActionPpm);
}
