namespace StoreMap.Surveys;

/// <summary>Kinds of journal events.</summary>
public static class JournalKinds
{
    /// <summary>The visit begins, or another device joins, or its monitor was given wrong: technician, instrument.</summary>
    public const string Start = "start";

    /// <summary>A reading, in the form of a survey file.</summary>
    public const string Reading = "reading";

    /// <summary>An earlier event was a mistake: of, reason.</summary>
    public const string Withdraw = "withdraw";

    /// <summary>A probe point is passed over: point, reason.</summary>
    public const string Skip = "skip";

    /// <summary>Closer points are probed around a place: fixture, at; with a spot one point there.</summary>
    public const string CloseIn = "close-in";

    /// <summary>The store was changed and must be put back: what, fixture.</summary>
    public const string LeftOff = "left-off";

    /// <summary>It was put back: item, the id of the event that opened it.</summary>
    public const string Restored = "restored";

    /// <summary>A named person took it over: item, to.</summary>
    public const string HandedOver = "handed-over";

    /// <summary>A stop-work reading: gas, ppm, level, and over when the monitor showed only that it is over its range, ppm.</summary>
    public const string StopWork = "stop-work";

    /// <summary>A stop-work reading was answered: everyone is out and the place is aired.</summary>
    public const string StopAnswered = "stop-answered";

    /// <summary>What is going on in a room: room, what, on.</summary>
    public const string Activity = "activity";

    /// <summary>A photo was taken: photo, the picture's id, and point, fixture, panel and note where known.</summary>
    public const string Photo = "photo";

    /// <summary>A walk along a front with a logging monitor begins or ends: event (<c>start</c> or <c>end</c>), fixture, at, height, air.</summary>
    public const string Mark = "mark";

    /// <summary>A note: text.</summary>
    public const string Note = "note";

    /// <summary>Into or out of a walk-in: fixture, in; who, the device of who it was, where another noted it.</summary>
    public const string CheckIn = "check-in";

    /// <summary>A panel was lifted: panel, leak (true or false), for a leak component and note where known, and day where it is noted later.</summary>
    public const string Panel = "panel";

    /// <summary>An addition to a store's service record, in a journal of its own whose survey is the store's id: units and weightUnit, entry and
    /// movement as in a service record file, after, the finding's latest entries as its writer knew them.</summary>
    public const string Service = "service";

    /// <summary>The order in which a store's points are walked was set, in the journal of its service record: order, pinned, begin.</summary>
    public const string Walk = "walk";

    /// <summary>The visit ends.</summary>
    public const string Close = "close";
}
