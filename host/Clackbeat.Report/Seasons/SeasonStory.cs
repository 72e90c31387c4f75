using Clackbeat.Report.Plots;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Seasons;

/// <summary>What a season report tells, gathered from a season store; the report itself knows no store.</summary>
public sealed record SeasonStory
{
    /// <summary>The keeper's name for the ram.</summary>
    public required string SiteName { get; init; }

    /// <summary>Units a page that can switch starts with; paper shows both.</summary>
    public Units Units { get; init; }

    /// <summary>First day.</summary>
    public required DateOnly From { get; init; }

    /// <summary>Last day.</summary>
    public required DateOnly To { get; init; }

    /// <summary>Months, oldest first.</summary>
    public required IReadOnlyList<SeasonMonth> Months { get; init; }

    /// <summary>D'Aubuisson's efficiency by day [%], at one supply level where <see cref="LevelM"/> isn't null.</summary>
    public required IReadOnlyList<PlottedDay> Efficiency { get; init; }

    /// <summary>Supply head the efficiency is brought to [m]; null where the level hardly moved, or isn't known.</summary>
    public double? LevelM { get; init; }

    /// <summary>How the efficiency goes since its last change; null for too few days.</summary>
    public SeasonSlope? Slope { get; init; }

    /// <summary>What was done, oldest first.</summary>
    public required IReadOnlyList<SeasonUpkeep> Upkeep { get; init; }

    /// <summary>Changes that were found, oldest first.</summary>
    public required IReadOnlyList<SeasonChange> Changes { get; init; }

    /// <summary>The known hours of the calendar, oldest first.</summary>
    public required IReadOnlyList<PlottedHour> Hours { get; init; }

    /// <summary>Stretches of a day and more on which it stood, oldest first.</summary>
    public required IReadOnlyList<SeasonStretch> Stoppages { get; init; }

    /// <summary>Stretches of a day and more that nobody recorded, oldest first.</summary>
    public required IReadOnlyList<SeasonStretch> Silences { get; init; }

    /// <summary>Peak over what the pipe may bear again and again, median of the last month; null for unknown.</summary>
    public double? PeakShare { get; init; }

    /// <summary>Share of the pipe's fatigue life used in the season: central, low, high; null where it wasn't judged.</summary>
    public (double Central, double Low, double High)? Fatigue { get; init; }
}

/// <summary>A trend of the efficiency [% a month] with its 95 % interval.</summary>
/// <param name="Since">First day it rests on.</param>
/// <param name="PerMonth">Central.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
/// <param name="Now">The efficiency at its end [%].</param>
public sealed record SeasonSlope(DateOnly Since, double PerMonth, double Low, double High, double Now)
{
    /// <summary>True where <see cref="Now"/> is an upper bound.</summary>
    public bool IsUpperBound { get; init; }

    /// <summary>True where the trend rests on upper bounds and on figures.</summary>
    public bool MixesBounds { get; init; }
}

/// <summary>Something that was done, and the efficiency 30 days after against before [%]; null where days are too few.</summary>
/// <param name="Day">When.</param>
/// <param name="Words">What.</param>
/// <param name="Shift">Central, low and high.</param>
public sealed record SeasonUpkeep(DateOnly Day, string Words, (double Central, double Low, double High)? Shift)
{
    /// <summary>True where the efficiency is an upper bound on one side only, so that no shift can be told.</summary>
    public bool MixesBounds { get; init; }
}

/// <summary>A change that was found.</summary>
/// <param name="Day">When, and within which days.</param>
/// <param name="Earliest">Earliest day.</param>
/// <param name="Latest">Latest day.</param>
/// <param name="Figure">Of what, in words, such as "irregularity".</param>
/// <param name="Before">Before, with its unit.</param>
/// <param name="After">After.</param>
/// <param name="IsEfficiency">Shown in the picture of the efficiency.</param>
public sealed record SeasonChange(DateOnly Day, DateOnly Earliest, DateOnly Latest, string Figure, string Before, string After, bool IsEfficiency);

/// <summary>A stretch of days.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="Hours">How long.</param>
public sealed record SeasonStretch(DateOnly From, DateOnly To, double Hours);
