using Clackbeat.Records.Samples;
using Clackbeat.Signal.Figures;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Reads levels, crossings and areas off one beat. Times are seconds after closure.</summary>
internal readonly struct CurveReader
{
    // Noise and the smallest ripples are no suction.
    private const double SuctionFloor = 0.01;
    private const double TailFloor = 0.05;

    // Copied, since a list behind an interface takes several times as long to read.
    private readonly double[] _timeS;
    private readonly double[] _pressurePa;
    private readonly BeatScale _scale;
    private readonly int _closure;

    public CurveReader(TraceCurve curve, BeatScale scale)
    {
        (_timeS, _pressurePa, _scale) = ([.. curve.TimeS], [.. curve.PressurePa], scale);
        _closure = At(0);
        LastS = _timeS.Length > 0 ? _timeS[^1] : 0;
    }

    /// <summary>End of the beat [s].</summary>
    public double LastS { get; }

    /// <summary>Samples are missing somewhere.</summary>
    public bool HasGap
    {
        get
        {
            if (_timeS.Length < 8)
            {
                return true;
            }

            double usual = (_timeS[^1] - _timeS[0]) / (_timeS.Length - 1);
            double widest = 0;
            for (int i = 1; i < _timeS.Length; i++)
            {
                widest = Math.Max(widest, _timeS[i] - _timeS[i - 1]);
            }

            return GapRule.IsGap(widest, usual);
        }
    }

    /// <summary>When the pressure was last above a share of the jump before a time [s]; null when it never was.</summary>
    public double? LastAbove(double share, double beforeS)
    {
        double levelPa = _scale.OpenPa + (share * _scale.JumpPa);
        for (int i = Math.Min(At(beforeS), _timeS.Length - 2); i >= _closure; i--)
        {
            if (_pressurePa[i] >= levelPa)
            {
                double drop = _pressurePa[i] - _pressurePa[i + 1];
                double part = drop > 0 ? Math.Clamp((_pressurePa[i] - levelPa) / drop, 0, 1) : 0;
                return _timeS[i] + (part * (_timeS[i + 1] - _timeS[i]));
            }
        }

        return null;
    }

    /// <summary>How long the pressure took from one share of the jump to a higher one as the waste valve shut [s]; null when it did not pass both.</summary>
    /// <param name="low">Where it begins.</param>
    /// <param name="high">Where it ends.</param>
    /// <param name="fromS">Search begins here; before the closure.</param>
    /// <param name="untilS">And ends here.</param>
    public double? Rise(double low, double high, double fromS, double untilS)
    {
        int top = Math.Max(1, At(fromS));
        int last = Math.Min(At(untilS), _timeS.Length - 1);
        while (top <= last && Share(top) < high)
        {
            top++;
        }

        int foot = top - 1;
        while (foot >= 0 && Share(foot) > low)
        {
            foot--;
        }

        return top <= last && foot >= 0 ? Crossing(top, high) - Crossing(foot + 1, low) : null;
    }

    /// <summary>Mean of the pressure over the jump, each sample clipped to 0…1, from closure to a time.</summary>
    public double Fullness(double untilS)
    {
        double area = 0;
        int to = Math.Min(At(untilS), _timeS.Length - 1);
        for (int i = _closure + 1; i <= to; i++)
        {
            area += Math.Clamp(Share(i), 0, 1) * (_timeS[i] - _timeS[i - 1]);
        }

        return to > _closure ? area / (_timeS[to] - _timeS[_closure]) : 0;
    }

    /// <summary>Area over the open level between two times, of the jump [s]; noise and ripples don't count.</summary>
    public double Tail(double fromS, double toS)
    {
        double area = 0;
        int to = Math.Min(At(toS), _timeS.Length - 1);
        for (int i = Math.Max(1, At(fromS)); i <= to; i++)
        {
            area += Math.Clamp(Share(i) - TailFloor, 0, 1) * (_timeS[i] - _timeS[i - 1]);
        }

        return area;
    }

    /// <summary>Depth (of the jump) and area (of the jump) [s] of what lies under the open level.</summary>
    public (double Depth, double AreaS) Suction(double fromS, double toS)
    {
        (double depth, double area) = (0, 0);
        int to = Math.Min(At(toS), _timeS.Length - 1);
        for (int i = Math.Max(1, At(fromS)); i <= to; i++)
        {
            double under = -Share(i);
            depth = Math.Max(depth, under);
            area += Math.Max(0, under - SuctionFloor) * (_timeS[i] - _timeS[i - 1]);
        }

        return (depth, area);
    }

    /// <summary>Median over the open level between two times, of the jump.</summary>
    public double Median(double fromS, double toS)
    {
        int from = Math.Min(At(fromS), _timeS.Length - 1);
        int to = Math.Clamp(At(toS), from + 1, _timeS.Length);
        double[] values = new double[to - from];
        for (int i = from; i < to; i++)
        {
            values[i - from] = Share(i);
        }

        return ArrayStatistics.MedianInplace(values);
    }

    /// <summary>Mean over the open level between two times [Pa], by the trapezoidal rule.</summary>
    public double MeanPa(double fromS, double toS)
    {
        double area = 0;
        int from = Math.Clamp(At(fromS), 0, _timeS.Length - 2);
        int to = Math.Clamp(At(toS), from + 1, _timeS.Length - 1);
        for (int i = from + 1; i <= to; i++)
        {
            area += ((0.5 * (_pressurePa[i] + _pressurePa[i - 1])) - _scale.OpenPa) * (_timeS[i] - _timeS[i - 1]);
        }

        return area / (_timeS[to] - _timeS[from]);
    }

    /// <summary>When a rise passed a share of the jump, on the straight line to a sample from the one before it [s].</summary>
    private double Crossing(int i, double share)
    {
        double rise = Share(i) - Share(i - 1);
        double part = rise > 0 ? Math.Clamp((Share(i) - share) / rise, 0, 1) : 0;
        return _timeS[i] - (part * (_timeS[i] - _timeS[i - 1]));
    }

    private double Share(int i) => (_pressurePa[i] - _scale.OpenPa) / _scale.JumpPa;

    /// <summary>Number of the first sample at or after a time.</summary>
    private int At(double timeS)
    {
        (int low, int high) = (0, _timeS.Length);
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = _timeS[middle] < timeS ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
