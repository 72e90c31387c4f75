using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Season.Packets;

/// <summary>From a packet's form to what a store takes, each value checked.</summary>
internal sealed class PacketCheck(DateTimeOffset nowUtc)
{
    private const int HashBytes = 32;
    private const int MostConditions = 50;
    private const double LongestBurstS = 7 * 86_400;
    private const double LargestStartUncertaintyS = 366 * 86_400;
    private static readonly DateTimeOffset Earliest = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    // A clock may be set wrong by a time zone, not by more.
    private static readonly TimeSpan MostAhead = TimeSpan.FromDays(1);

    private int _beatsLeft = PacketLimits.Beats;

    public SeasonBurst Burst(BurstForm? form, int index)
    {
        string at = $"bursts[{index}]";
        form ??= new BurstForm();
        return new SeasonBurst
        {
            Ram = RamName(form.Ram, at),
            SourceHash = Hash(form.Hash, at),
            Source = Text(form.Source, PacketLimits.Text, $"{at}.source"),
            StartUtc = Time(form.Start, $"{at}.start"),
            StartUncertaintyS = form.StartUncertaintyS is { } u ? Within(u, 0, LargestStartUncertaintyS, $"{at}.start_uncertainty_s") : null,
            DurationS = Within(form.DurationS, 0, LongestBurstS, $"{at}.duration_s"),
            State = StoredState.Find(form.State ?? "") ?? throw Wrong($"{at}.state"),
            Completeness = Text(form.Completeness, PacketLimits.Text, $"{at}.completeness"),
            Figures = Figures(form.Figures, at),
            Conditions = Conditions(form.Conditions, at),
            Beats = Beats(form.Beats, at),
        };
    }

    public MaintenanceMark Mark(MarkForm? form, int index)
    {
        string at = $"marks[{index}]";
        return new MaintenanceMark(RamName(form?.Ram, at), Time(form?.At, $"{at}.at"), Text(form?.Words, PacketLimits.Text, $"{at}.words"));
    }

    private static Dictionary<SeasonFigure, SeasonValue> Figures(IReadOnlyDictionary<string, FigureForm?>? forms, string at)
    {
        var figures = new Dictionary<SeasonFigure, SeasonValue>();
        foreach ((string code, FigureForm? form) in forms ?? new Dictionary<string, FigureForm?>())
        {
            if (SeasonFigures.TryParse(code, out SeasonFigure figure))
            {
                double value = Within(form?.Value, double.MinValue, double.MaxValue, $"{at}.figures.{code}");
                double? u = form!.U is { } given ? Within(given, 0, double.MaxValue, $"{at}.figures.{code}.u") : null;
                figures[figure] = new SeasonValue(value, u) { IsUpperBound = form.Bound == StoredBound.Upper };
            }
        }

        return figures;
    }

    private static Dictionary<string, double> Conditions(IReadOnlyDictionary<string, double>? given, string at)
    {
        var conditions = new Dictionary<string, double>();
        foreach ((string code, double probability) in given ?? new Dictionary<string, double>())
        {
            bool isCode = code.Length is > 0 and <= 60 && code.All(c => char.IsAsciiLetterLower(c) || c == '-');
            conditions[isCode ? code : throw Wrong($"{at}.conditions")] = Within(probability, 0, 1, $"{at}.conditions.{code}");
        }

        return conditions.Count <= MostConditions ? conditions : throw Wrong($"{at}.conditions");
    }

    private IReadOnlyList<SeasonBeat> Beats(byte[]? packed, string at)
    {
        try
        {
            IReadOnlyList<SeasonBeat> beats = BeatPack.Unpack(packed ?? [], _beatsLeft);
            _beatsLeft -= beats.Count;
            return beats;
        }
        catch (InputException spoilt)
        {
            throw InputException.Of(spoilt, "packet.value", ("at", $"{at}.beats"));
        }
    }

    private static string RamName(string? text, string at)
    {
        string name = Text(text, PacketLimits.RamName, $"{at}.ram");
        return name.Trim() == name && name.Length > 0 ? name : throw Wrong($"{at}.ram");
    }

    private static string Text(string? text, int most, string at) =>
        text is not null && text.Length <= most && !text.Any(char.IsControl) ? text : throw Wrong(at);

    private static byte[] Hash(string? hex, string at) =>
        hex is { Length: 2 * HashBytes } && hex.All(char.IsAsciiHexDigit) ? Convert.FromHexString(hex) : throw Wrong($"{at}.hash");

    private DateTimeOffset Time(DateTimeOffset? time, string at) =>
        time is { } told && told >= Earliest && told <= nowUtc + MostAhead ? told.ToUniversalTime() : throw Wrong(at);

    private static double Within(double? value, double low, double high, string at) =>
        value is { } given && given >= low && given <= high ? given : throw Wrong(at);

    private static InputException Wrong(string at) => InputException.Of("packet.value", ("at", at));
}
