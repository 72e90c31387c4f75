using System.Globalization;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Tuning.Twins;
using Clackbeat.Twin.Changes;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>How a search went.</summary>
/// <param name="Shares">True delivered flow over the most of the range, of the setting named after each trial; 0 for none.</param>
/// <param name="Settings">What was tried.</param>
internal sealed record TuningRun(IReadOnlyList<double> Shares, IReadOnlyList<double> Settings)
{
    private const double Near = 0.97;

    /// <summary>Trials after which the named setting is within 3 % of the best for good; null where it never is.</summary>
    public int? Needed
    {
        get
        {
            int last = Shares.ToList().FindLastIndex(s => s < Near);
            return last + 1 < Shares.Count ? last + 2 : null;
        }
    }
}

/// <summary>
/// A drawn ram, its stroke to be tuned from where it stands: trials of a minute and what each setting truly delivers, made once and kept
/// in a folder.
/// </summary>
/// <param name="Drawn">The ram.</param>
/// <param name="Folder">The folder.</param>
internal sealed record TuningCase(TwinCase Drawn, string Folder)
{
    private static readonly Knob Stroke = Knob.Parse("stroke 50 to 160 %");

    /// <summary>The settings that are proposed, and where it may stand at first: not at the ends.</summary>
    private static double[] Settings => [.. Enumerable.Range(0, 12).Select(i => 50.0 + (10 * i))];

    /// <summary>Where the valve stands: drawn, since nobody knows how a ram is found.</summary>
    public double Start => Settings[2 + new Random(Drawn.Ram.Number).Next(Settings.Length - 4)];

    /// <summary>Most that the range delivers [m³/s].</summary>
    public double Most => Settings.Max(Delivered);

    /// <summary>Whether it beats where it stands.</summary>
    public bool Beats => Trial(Start).Works;

    /// <summary>Tunes it.</summary>
    /// <param name="withTwin">The search begins from the twin's curve.</param>
    public TuningRun Run(bool withTwin)
    {
        TuningSession session = Empty;
        double most = Most;
        List<double> shares = [];
        while (NextSetting.Of(session, Start).Setting is { } setting)
        {
            Trial trial = Trial(setting);
            session = session.With(withTwin ? trial : trial with { Twin = null });
            shares.Add(NextSetting.Of(session).Best is { } best ? Delivered(best.Setting) / most : 0);
        }

        return new TuningRun(shares, [.. session.Trials.Select(t => t.Setting)]);
    }

    /// <summary>The session before its first trial.</summary>
    private TuningSession Empty => new() { Ram = Drawn.Ram.Site.Name, Knob = Stroke, Aim = TuningAim.MostDelivered };

    /// <summary>Whether a twin fitted where it stands.</summary>
    public bool HasTwin => Trial(Start).Twin is not null;

    private double Delivered(double percent) => Drawn.Truth(Folder, Name(percent), Change(percent)).Delivered;

    private Trial Trial(double percent)
    {
        string path = Path.Combine(Folder, string.Create(CultureInfo.InvariantCulture, $"{Drawn.Domain}-{Drawn.Ram.Set}-{Drawn.Ram.Number:00000}-{percent:000}.tune"));
        if (!File.Exists(path))
        {
            SessionFile.Save(path, Empty.With(Made(percent)));
        }

        return SessionFile.Load(path).Trials[0];
    }

    private Trial Made(double percent)
    {
        (double[] times, double[] pressures) = Drawn.Trial(Change(percent), (int)percent);
        var reader = new TrialReader(Drawn.Ram.Site);
        reader.Add(times, pressures);
        Trial trial = reader.Finish(percent, "study");
        return TrialTwin.Of(Empty, Drawn.Ram.Site, reader.Analysis!, trial);
    }

    private static string Name(double percent) => string.Create(CultureInfo.InvariantCulture, $"stroke {percent:000}");

    private static RamChange Change(double percent) => new() { Stroke = percent / 100 };
}
