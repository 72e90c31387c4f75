using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Analysis;

/// <summary>Gathers what plots need while the record streams past, in bounded memory.</summary>
internal sealed class PictureBuilder
{
    private const int MostBins = 4000;
    private const int MostCurves = 64;
    private const int MostCurvePoints = 3000;
    private const int ExcerptBeats = 5;
    private const int MostExcerptPoints = 60_000;

    private readonly List<double> _low = [];
    private readonly List<double> _high = [];
    private readonly List<(int Beat, TraceCurve Curve)> _overlay = [];
    private readonly List<double> _excerptS = [];
    private readonly List<double> _excerptPa = [];
    private double _startS;
    private double _stepS;
    private int _everyBeat = 1;
    private int _excerptCount;

    /// <summary>Says when the record starts and what a usual step is [s], before the first sample.</summary>
    public void Start(double startS, double usualStepS) => (_startS, _stepS) = (startS, 4 * usualStepS);

    /// <summary>Takes the next sample.</summary>
    public void Add(double timeS, double pressurePa)
    {
        int bin = BinOf(timeS);
        while (bin >= MostBins)
        {
            Halve();
            bin = BinOf(timeS);
        }

        while (_low.Count <= bin)
        {
            _low.Add(double.NaN);
            _high.Add(double.NaN);
        }

        // A comparison with NaN is false, so the first sample of a bin takes it.
        _low[bin] = _low[bin] <= pressurePa ? _low[bin] : pressurePa;
        _high[bin] = _high[bin] >= pressurePa ? _high[bin] : pressurePa;
    }

    /// <summary>Takes a whole beat.</summary>
    public void Add(BeatWindow window)
    {
        AddToExcerpt(window);
        Beat beat = window.Beat;
        if (beat.Index % _everyBeat != 0)
        {
            return;
        }

        long from = window.Samples.FirstAtOrAfter(beat.ClosureS - (0.15 * beat.IntervalS));
        long to = window.Samples.FirstAtOrAfter(beat.NextClosureS);
        _overlay.Add((beat.Index, Thin(window.Samples.TimesS(from, to), window.Samples.PressuresPa(from, to), beat.ClosureS)));
        if (_overlay.Count > MostCurves)
        {
            _everyBeat *= 2;
            _overlay.RemoveAll(o => o.Beat % _everyBeat != 0);
        }
    }

    /// <summary>The picture; a record without beats shows its newest samples as excerpt.</summary>
    public TracePicture Build(SampleBuffer newest)
    {
        if (_excerptS.Count == 0 && newest.End > newest.First)
        {
            long from = Math.Max(newest.End - MostExcerptPoints, newest.FirstAtOrAfter(newest.TimeS(newest.End - 1) - 5));
            Append(newest, from, newest.End);
        }

        return new TracePicture
        {
            Whole = new Envelope(_startS, _stepS, _low, _high),
            Excerpt = new TraceCurve(_excerptS, _excerptPa),
            Overlay = [.. _overlay.Select(o => o.Curve)],
        };
    }

    private int BinOf(double timeS) => (int)Math.Max(0, Math.Min((timeS - _startS) / _stepS, int.MaxValue / 2));

    private void Halve()
    {
        for (int bin = 0; bin < _low.Count; bin += 2)
        {
            int other = Math.Min(bin + 1, _low.Count - 1);
            _low[bin / 2] = _low[bin] <= _low[other] || double.IsNaN(_low[other]) ? _low[bin] : _low[other];
            _high[bin / 2] = _high[bin] >= _high[other] || double.IsNaN(_high[other]) ? _high[bin] : _high[other];
        }

        int kept = (_low.Count + 1) / 2;
        _low.RemoveRange(kept, _low.Count - kept);
        _high.RemoveRange(kept, _high.Count - kept);
        _stepS *= 2;
    }

    /// <summary>The first beats; once the start-up is over (as many again have passed), those that follow instead.</summary>
    private void AddToExcerpt(BeatWindow window)
    {
        if (window.Beat.Index == ExcerptBeats)
        {
            _excerptS.Clear();
            _excerptPa.Clear();
            _excerptCount = 0;
        }

        if (_excerptCount >= ExcerptBeats)
        {
            return;
        }

        _excerptCount++;
        long from = _excerptS.Count == 0 ? window.From : window.Samples.FirstAtOrAfter(_excerptS[^1] + 1e-9);
        Append(window.Samples, from, Math.Min(window.To, from + MostExcerptPoints - _excerptS.Count));
    }

    private void Append(SampleBuffer samples, long from, long to)
    {
        _excerptS.AddRange(samples.TimesS(from, to));
        _excerptPa.AddRange(samples.PressuresPa(from, to));
    }

    /// <summary>Of each run of samples the one that stands out most is kept, so that spikes stay.</summary>
    private static TraceCurve Thin(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa, double zeroS)
    {
        int stride = 1 + ((timesS.Length - 1) / MostCurvePoints);
        var times = new List<double>((timesS.Length / stride) + 1);
        var pressures = new List<double>((timesS.Length / stride) + 1);
        double lastPa = pressuresPa.IsEmpty ? 0 : pressuresPa[0];
        for (int start = 0; start < timesS.Length; start += stride)
        {
            int pick = start;
            for (int i = start + 1; i < Math.Min(start + stride, timesS.Length); i++)
            {
                pick = Math.Abs(pressuresPa[i] - lastPa) > Math.Abs(pressuresPa[pick] - lastPa) ? i : pick;
            }

            lastPa = pressuresPa[pick];
            times.Add(timesS[pick] - zeroS);
            pressures.Add(lastPa);
        }

        return new TraceCurve(times, pressures);
    }
}
