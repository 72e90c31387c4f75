namespace Clackbeat.Hydraulics.Rating;

/// <summary>Where the measured peaks stand against what the pipe may bear.</summary>
public enum PipeVerdict
{
    /// <summary>The data can't carry a verdict.</summary>
    Unknown,

    /// <summary>The peak, with its uncertainty, stays under the allowable pressure.</summary>
    Within,

    /// <summary>The peak reaches the allowable pressure within its uncertainty.</summary>
    Near,

    /// <summary>The peak exceeds the allowable pressure.</summary>
    Over,
}

/// <summary>Years until fatigue is expected to crack the pipe, as a range.</summary>
/// <param name="Value">Central estimate [years].</param>
/// <param name="Low">Lower bound [years].</param>
/// <param name="High">Upper bound [years].</param>
public sealed record FatigueLife(double Value, double Low, double High);

/// <summary>The pipe's rating, the peak it meets and the verdict, all gauge pressures.</summary>
public sealed record PipeCheck
{
    /// <summary>Rating of the pipe as printed or tabled [Pa]; null when neither is known.</summary>
    public double? RatedPa { get; init; }

    /// <summary>What a recurring load may reach, after derating [Pa].</summary>
    public double? AllowablePa { get; init; }

    /// <summary>The peak that was compared [Pa].</summary>
    public double? PeakPa { get; init; }

    /// <summary>The verdict.</summary>
    public PipeVerdict Verdict { get; init; }

    /// <summary>The rule applied, named with its source, in words.</summary>
    public string Rule { get; init; } = "";

    /// <summary>Fatigue life; null where no recognised curve covers the pipe or no figure can be given.</summary>
    public FatigueLife? FatigueLifeYears { get; init; }
}
