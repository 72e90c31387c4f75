using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>How the amount of a sign is told.</summary>
internal enum SignAmount
{
    /// <summary>A logarithm: per cent more or less.</summary>
    Ratio,

    /// <summary>Share of the jump.</summary>
    Jump,

    /// <summary>Share, in points of a hundred.</summary>
    Share,

    /// <summary>Periods of the drive pipe.</summary>
    Periods,

    /// <summary>Share of the closing velocity.</summary>
    Closing,

    /// <summary>Not at all.</summary>
    None,
}

/// <summary>A sign in words.</summary>
internal sealed record SignText(string Rise, string Fall, SignAmount As, BeatPart Where)
{
    private static readonly Dictionary<Sign, SignText> Texts = DiagnosisData.Tables("signs.toml").ToDictionary(
        t => Enum.Parse<Sign>(t.Key),
        t => new SignText(
            (string)t.Value["rise"],
            (string)t.Value["fall"],
            Enum.Parse<SignAmount>((string)t.Value["as"], ignoreCase: true),
            Enum.Parse<BeatPart>((string)t.Value["where"], ignoreCase: true)));

    /// <summary>The text of a sign.</summary>
    public static SignText Of(Sign sign) => Texts[sign];

    /// <summary>A sentence for a change.</summary>
    /// <param name="change">Change of the sign.</param>
    /// <param name="against">What it is compared with, as "compared with when the ram was well".</param>
    public string Sentence(double change, string against)
    {
        string what = change > 0 ? Rise : Fall;
        string much = As switch
        {
            SignAmount.Ratio => Percent(Math.Exp(change) - 1, change > 0 ? "more" : "less"),
            SignAmount.Share => Points(change, ""),
            SignAmount.Jump => Points(change, " of the rise from open to delivery"),
            SignAmount.Closing => Points(change, " of the speed it shuts at"),
            SignAmount.Periods => string.Create(CultureInfo.InvariantCulture, $"by {Math.Abs(change):0.00} of the time a wave takes up and down the drive pipe, "),
            _ => "",
        };
        return $"{what} ({much}{against}).";
    }

    /// <summary>An amount alone, as "4 %".</summary>
    /// <param name="change">Size of the change.</param>
    /// <param name="scatter">The sign's usual scatter, for signs that have no amount a reader knows.</param>
    public string Amount(double change, double scatter) => As switch
    {
        SignAmount.Ratio => string.Create(CultureInfo.InvariantCulture, $"{100 * (Math.Exp(change) - 1):0.#} %"),
        SignAmount.Share or SignAmount.Jump or SignAmount.Closing => string.Create(CultureInfo.InvariantCulture, $"{100 * change:0.#} %"),
        SignAmount.Periods => string.Create(CultureInfo.InvariantCulture, $"{change:0.00} periods"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{change / scatter:0} usual scatters"),
    };

    private static string Percent(double share, string word) => Math.Abs(share) > 3
        ? string.Create(CultureInfo.InvariantCulture, $"{1 + share:0.#} times as much, ")
        : string.Create(CultureInfo.InvariantCulture, $"{100 * Math.Abs(share):0.#} % {word}, ");

    private static string Points(double change, string of) =>
        string.Create(CultureInfo.InvariantCulture, $"by {100 * Math.Abs(change):0.#} %{of}, ");
}
