namespace StoreMap.Surveys;

/// <summary>Every default of reading and judging surveys, in one place. Units in the names.</summary>
public static class SurveyDefaults
{
    /// <summary>Detection limit of a monitor nobody described, ppm.</summary>
    public const double DetectionPpm = 1;

    /// <summary>Display step of a monitor nobody described, ppm.</summary>
    public const double ResolutionPpm = 1;

    /// <summary>Top of the range of a monitor nobody described, ppm; raised when the file shows more.</summary>
    public const double RangePpm = 1000;

    /// <summary>Seconds from tip to sensor. Common practice: about 5 s.</summary>
    public const double DelaySeconds = 5;

    /// <summary>Seconds from 0 to 90 % of a step.</summary>
    public const double T90Seconds = 5;

    /// <summary>A place given as x, y belongs to a front this near, metres (3 ft).</summary>
    public const double FrontReachMetres = 3 * LengthUnits.MetresPerFoot;

    /// <summary>A distance beyond a front's end by this much is taken as the end, metres (6 in).</summary>
    public const double FrontEndSlackMetres = 0.5 * LengthUnits.MetresPerFoot;

    /// <summary>A place this far outside the store's outline is still taken as inside, metres.</summary>
    public const double OutlineSlackMetres = 0.5;

    /// <summary>Net ppm from which a reading is a hit. Common practice: 2 ppm begins the close-in pass.</summary>
    public const double ActionPpm = 2;

    /// <summary>Net ppm from which a CO2 reading is a hit: people and dry ice move the room by less than this.</summary>
    public const double ActionCo2Ppm = 200;

    /// <summary>Standard deviation of a reading that grows with it, as a fraction.</summary>
    public const double NoiseFraction = 0.05;

    /// <summary>Standard deviation of a background after one hour, ppm.</summary>
    public const double DriftPpmPerRootHour = 0.5;

    /// <summary>Standard deviation of a CO2 background after one hour, ppm.</summary>
    public const double DriftCo2PpmPerRootHour = 100;

    /// <summary>CO2 of outdoor air, ppm: about 420, and people add to it indoors. From memory.</summary>
    public const double OutdoorCo2Ppm = 420;

    /// <summary>Id of the monitor of a file that names none.</summary>
    public const string InstrumentId = "monitor";
}
