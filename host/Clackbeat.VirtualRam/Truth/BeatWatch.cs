using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Truth;

/// <summary>Looks at the engine after every step and makes whole beats of it.</summary>
public sealed class BeatWatch
{
    /// <summary>A plug that lifted less than this share of its travel only bounced.</summary>
    private const double OpenShare = 0.3;

    private readonly RamEngine _engine;
    private readonly double _weight;
    private readonly double _area;
    private readonly List<double> _plateau = [];
    private Running _beat;
    private double? _closureS;
    private bool _open;
    private double _fastest;
    private double _closingVelocity;

    /// <summary>Watches an engine.</summary>
    /// <param name="engine">The engine.</param>
    public BeatWatch(RamEngine engine)
    {
        ArgumentNullException.ThrowIfNull(engine);
        _engine = engine;
        _weight = engine.Parameters.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        _area = engine.Parameters.DrivePipe.AreaM2;
        _beat.Clear();
    }

    /// <summary>Takes the last step in; returns the beat that ended in it, if one did.</summary>
    public VirtualBeat? Look()
    {
        // An open phase is one in which the column can speed up: gate well open, body below the supply's head.
        if (!_open && _engine.WasteOpening > OpenShare && _engine.BodyHeadM < _engine.Parameters.Supply.HeadM)
        {
            _open = true;
            _fastest = 0;
        }

        if (_open)
        {
            _fastest = Math.Max(_fastest, _engine.BodyFlowM3PerS / _area);
        }

        VirtualBeat? ended = null;
        if (_open && _engine.WasteSeatedAtS is { } seated)
        {
            _open = false;
            ended = Close(seated);
        }

        Add();
        return ended;
    }

    private VirtualBeat? Close(double seatedS)
    {
        VirtualBeat? ended = _closureS is { } start
            ? new VirtualBeat
            {
                ClosureS = start,
                IntervalS = seatedS - start,
                PeakPa = _weight * _beat.HighestM,
                SuctionPa = _weight * _beat.LowestM,
                ClosingVelocityMPerS = _closingVelocity,
                WasteM3 = _beat.WasteM3,
                DeliveredM3 = _beat.DeliveredM3,
                ArrivedM3 = _beat.ArrivedM3,
                DeliveredJ = _weight * _beat.DeliveredM4,
                PlateauPa = PlateauPa(),
            }
            : null;
        _closureS = seatedS;
        _closingVelocity = _fastest;
        _beat.Clear();
        _plateau.Clear();
        return ended;
    }

    private void Add()
    {
        if (_closureS is null)
        {
            return;
        }

        double h = _engine.BodyHeadM;
        _beat.HighestM = Math.Max(_beat.HighestM, h);
        _beat.LowestM = Math.Min(_beat.LowestM, h);
        _beat.WasteM3 += _engine.StepS * _engine.WasteFlowM3PerS;
        _beat.DeliveredM3 += _engine.StepS * _engine.DeliveryFlowM3PerS;
        _beat.ArrivedM3 += _engine.StepS * _engine.OutletFlowM3PerS;
        _beat.DeliveredM4 += _engine.StepS * _engine.DeliveryFlowM3PerS * h;
        if (_engine.DeliveryFlowM3PerS > 0 && _engine.DeliveryOpening > 0)
        {
            _plateau.Add(h);
        }
    }

    private double? PlateauPa()
    {
        int skip = _plateau.Count / 10;
        int count = _plateau.Count - 2 * skip;
        if (count <= 0)
        {
            return null;
        }

        double sum = 0.0;
        for (int i = skip; i < skip + count; i++)
        {
            sum += _plateau[i];
        }

        return _weight * sum / count;
    }

    private struct Running
    {
        internal double HighestM;
        internal double LowestM;
        internal double WasteM3;
        internal double DeliveredM3;
        internal double ArrivedM3;
        internal double DeliveredM4;

        internal void Clear() =>
            this = new Running { HighestM = double.NegativeInfinity, LowestM = double.PositiveInfinity };
    }
}
