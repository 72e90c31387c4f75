using Clackbeat.Hydraulics.Rating;
using Clackbeat.Records.Samples;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.States;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Tuning.Trials;

/// <summary>Turns the samples of one trial, as they come, into its figures and the figures of its stretches.</summary>
public sealed class TrialReader
{
    // Long enough for a flow, short enough that a minute holds three.
    private const double StretchS = 20;
    private const double ShortestStretchS = 12;

    private readonly RamSite _site;
    private readonly RamAnalyser _whole;
    private readonly List<Stretch> _stretches = [];
    private RamAnalyser _part;
    private double _partFromS = double.NaN;
    private double _lastS;

    /// <summary>Makes a reader for one trial.</summary>
    public TrialReader(RamSite site)
    {
        _site = site;
        (_whole, _part) = (new RamAnalyser(site), new RamAnalyser(site));
    }

    /// <summary>The analysis of the whole trial; there after <see cref="Finish"/>.</summary>
    public RamAnalysis? Analysis { get; private set; }

    /// <summary>Takes samples in order.</summary>
    /// <param name="timesS">Times [s].</param>
    /// <param name="pressuresPa">Gauge pressures [Pa], same length.</param>
    public void Add(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa)
    {
        _whole.Add(timesS, pressuresPa);
        for (int i = 0; i < timesS.Length; i++)
        {
            if (double.IsNaN(_partFromS))
            {
                _partFromS = timesS[i];
            }
            else if (timesS[i] - _partFromS >= StretchS)
            {
                EndStretch();
                _partFromS = timesS[i];
            }

            _part.Add(timesS.Slice(i, 1), pressuresPa.Slice(i, 1));
            _lastS = timesS[i];
        }
    }

    /// <summary>Ends the trial.</summary>
    /// <param name="setting">The setting that was tried, in the knob's unit.</param>
    /// <param name="file">Where it was recorded.</param>
    /// <param name="board">How well the logger's board tells the samples' times; null where nobody measured that.</param>
    /// <exception cref="InputException">Nothing in the record can be used.</exception>
    public Trial Finish(double setting, string file, BoardTiming? board = null)
    {
        if (_lastS - _partFromS >= ShortestStretchS)
        {
            EndStretch();
        }

        RamAnalysis analysis = _whole.Finish(file, 0, board);
        Analysis = analysis;
        if (analysis.Zero.IsWrong)
        {
            throw new InputException(ZeroFacts.Refusal(file, analysis.Zero));
        }

        TrialLack lack = LackOf(analysis);
        return new Trial
        {
            Setting = setting,
            Note = file,
            Works = lack == TrialLack.None,
            Reason = WhyNot(lack, analysis),
            Lack = lack,
            DeliveredM3PerS = analysis.Flow.DeliveredM3PerS,
            WasteM3PerS = analysis.Flow.WasteM3PerS,
            Efficiency = analysis.Efficiency.DAubuisson,
            PeakPa = analysis.Pressure.PeakTrue,
            RatePerMin = analysis.Beats.RatePerMin,
            DeliveryPa = analysis.Pressure.Delivery,
            WaveSpeedMPerS = analysis.DrivePipe.WaveSpeedMPerS,
            Print = BeatPrint.Of(analysis.BeatList),
            AllowablePa = analysis.Pipe.AllowablePa,
            // A pipe that every curve says will crack is no pipe to tune on, whatever its peak.
            Verdict = analysis.Pipe.FatigueVerdict == PipeVerdict.Over ? PipeVerdict.Over : analysis.Pipe.Verdict,
            Stretches = [.. _stretches],
        };
    }

    /// <summary>A trial in which the ram would not run, without figures.</summary>
    /// <param name="setting">The setting, in the knob's unit.</param>
    /// <param name="lack">How it stood still.</param>
    /// <param name="file">Where it was recorded; empty for nowhere.</param>
    public static Trial Stood(double setting, TrialLack lack, string file) => new()
    {
        Setting = setting,
        Note = file,
        Works = false,
        Reason = WhyNot(lack, null),
        Lack = lack,
        Verdict = PipeVerdict.Unknown,
    };

    private static TrialLack LackOf(RamAnalysis analysis) => analysis.State switch
    {
        RamState.NoSignal => TrialLack.NoSignal,
        RamState.StoppedShut => TrialLack.StoppedShut,
        RamState.StoppedOpen => TrialLack.StoppedOpen,
        _ when analysis.Flow.DeliveredM3PerS is null || analysis.Efficiency.DAubuisson is null || analysis.Pressure.PeakTrue is null => TrialLack.NoFlow,
        _ => TrialLack.None,
    };

    private static Fact? WhyNot(TrialLack lack, RamAnalysis? analysis) => lack switch
    {
        TrialLack.None => null,
        TrialLack.NoSignal => Fact.Of("trial-no-signal"),
        TrialLack.StoppedShut => Fact.Of("trial-stopped-shut"),
        TrialLack.StoppedOpen => Fact.Of("trial-stopped-open"),
        _ => analysis?.WhyNoFlow ?? Fact.Of("trial-no-flow"),
    };

    private void EndStretch()
    {
        RamAnalyser part = _part;
        _part = new RamAnalyser(_site);
        try
        {
            RamAnalysis one = part.Finish("stretch");
            if (one.Flow.DeliveredM3PerS is { } delivered && one.Efficiency.DAubuisson is { } efficiency && one.Pressure.PeakTrue is { } peak)
            {
                _stretches.Add(new Stretch(delivered.Value, efficiency.Value, peak.Value));
            }
        }
        catch (InputException)
        {
            // A stretch in which nothing can be used only means one opinion less on the scatter; the whole speaks for the trial.
        }
    }
}
