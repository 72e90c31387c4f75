using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Truth;

/// <summary>Looks at the engine after every step and makes whole beats of it.</summary>
internal sealed class BeatWatch
{
    /// <summary>A plug that lifted less than this share of its travel only bounced.</summary>
    private const double OpenShare = 0.3;

    private readonly RamEngine engine;
    private readonly double weight;
    private readonly double area;
    private readonly List<double> plateau = [];
    private Running beat;
    private double? closureS;
    private bool open;
    private double fastest;
    private double closingVelocity;

    internal BeatWatch(RamEngine engine)
    {
        this.engine = engine;
        weight = engine.Parameters.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        area = engine.Parameters.DrivePipe.AreaM2;
        beat.Clear();
    }

    /// <summary>Takes the last step in; returns the beat that ended in it, if one did.</summary>
    internal VirtualBeat? Look()
    {
        // An open phase is one in which the column can speed up: gate well open, body below the supply's head.
        if (!open && engine.WasteOpening > OpenShare && engine.BodyHeadM < engine.Parameters.Supply.HeadM)
        {
            open = true;
            fastest = 0;
        }

        if (open)
        {
            fastest = Math.Max(fastest, engine.BodyFlowM3PerS / area);
        }

        VirtualBeat? ended = null;
        if (open && engine.WasteSeatedAtS is { } seated)
        {
            open = false;
            ended = Close(seated);
        }

        Add();
        return ended;
    }

    private VirtualBeat? Close(double seatedS)
    {
        VirtualBeat? ended = closureS is { } start
            ? new VirtualBeat
            {
                ClosureS = start,
                IntervalS = seatedS - start,
                PeakPa = weight * beat.HighestM,
                SuctionPa = weight * beat.LowestM,
                ClosingVelocityMPerS = closingVelocity,
                WasteM3 = beat.WasteM3,
                DeliveredM3 = beat.DeliveredM3,
                DeliveredJ = weight * beat.DeliveredM4,
                PlateauPa = PlateauPa(),
            }
            : null;
        closureS = seatedS;
        closingVelocity = fastest;
        beat.Clear();
        plateau.Clear();
        return ended;
    }

    private void Add()
    {
        if (closureS is null)
        {
            return;
        }

        var h = engine.BodyHeadM;
        beat.HighestM = Math.Max(beat.HighestM, h);
        beat.LowestM = Math.Min(beat.LowestM, h);
        beat.WasteM3 += engine.StepS * engine.WasteFlowM3PerS;
        beat.DeliveredM3 += engine.StepS * engine.DeliveryFlowM3PerS;
        beat.DeliveredM4 += engine.StepS * engine.DeliveryFlowM3PerS * h;
        if (engine.DeliveryFlowM3PerS > 0 && engine.DeliveryOpening > 0)
        {
            plateau.Add(h);
        }
    }

    private double? PlateauPa()
    {
        var skip = plateau.Count / 10;
        var count = plateau.Count - 2 * skip;
        if (count <= 0)
        {
            return null;
        }

        var sum = 0.0;
        for (var i = skip; i < skip + count; i++)
        {
            sum += plateau[i];
        }

        return weight * sum / count;
    }

    private struct Running
    {
        internal double HighestM;
        internal double LowestM;
        internal double WasteM3;
        internal double DeliveredM3;
        internal double DeliveredM4;

        internal void Clear() =>
            this = new Running { HighestM = double.NegativeInfinity, LowestM = double.PositiveInfinity };
    }
}
