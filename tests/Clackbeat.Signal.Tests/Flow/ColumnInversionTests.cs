using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Tests.Flow;

public class ColumnInversionTests
{
    private static readonly ColumnModel Pipe = new(15, 1250, 2.5, 0, 1.5 / 19.6133, 0.4);

    [Theory]
    [InlineData(1250, 0.010)]
    [InlineData(1250, 0.060)]
    [InlineData(440, 0.030)]
    [InlineData(250, 0.200)]
    public void A_closure_gives_back_the_discharge_that_was_shut_off(double waveSpeed, double closureS)
    {
        // The pressure-time method's own test (IEC 60041): a known steady flow is shut off, the head is recorded, and the
        // record gives the flow back. After the closure the flow is known to be zero;
        // a front between two samples a millisecond apart may leave 0.5 per cent of it.
        ColumnModel model = Pipe with { WaveSpeedMPerS = waveSpeed };
        const double velocity = 1.3;
        (double[] times, double[] heads, double[] truth) = Close(model, velocity, closureS);
        double[] found = Invert(model, times, heads, velocity);

        Assert.InRange(found[^400..].Average() / velocity, -0.005, 0.005);
        Assert.Equal(truth.Average(), found.Average(), 0.01 * velocity);
    }

    [Theory]
    [InlineData(1250)]
    [InlineData(440)]
    [InlineData(250)]
    public void It_follows_a_pipe_of_many_reaches(double waveSpeed)
    {
        // A head that swings as in a beat, imposed on both; the swing starts from the steady state both begin with.
        ColumnModel model = Pipe with { WaveSpeedMPerS = waveSpeed };
        var pipe = new SlowPipe(15, waveSpeed, 2.5, model.EntranceLoss, model.PipeLoss, 40, 0.4);
        double resting = pipe.BodyHeadM;
        (List<double> times, List<double> heads, List<double> truth) = (new List<double>(), new List<double>(), new List<double>());
        for (double t = 0; t < 2; t += pipe.StepS)
        {
            double head = resting + (8 * Math.Pow(Math.Max(0, Math.Sin(5 * t)), 8)) - Math.Exp(-Square((t - 1.1) / 0.05));
            pipe.Step((plus, b) => (head, (plus - head) / b));
            times.Add(t);
            heads.Add(head);
            truth.Add(pipe.BodyVelocity);
        }

        double[] found = Invert(model, [.. times], [.. heads], 0.4);

        double rms = Math.Sqrt(found.Zip(truth, (a, b) => Square(a - b)).Average());
        Assert.InRange(rms / (truth.Max() - truth.Min()), 0, 0.01);
    }

    [Fact]
    public void The_columns_momentum_is_conserved()
    {
        // With no losses the velocity gained is g/L times the integral of the head's deficit, whatever the waves do.
        ColumnModel model = Pipe with { EntranceLoss = 0, PipeLoss = 0 };
        double[] times = [.. Enumerable.Range(0, 4001).Select(i => i * 1e-3)];
        double[] heads = [.. times.Select(t => t < 0.1 || t > 3 ? 2.5 : 2.5 + Math.Sin(9 * t))];
        double[] found = Invert(model, times, heads, 0);

        double deficit = heads.Sum(h => (2.5 - h) * 1e-3);
        Assert.Equal(model.Drive * deficit, found[^(int)(1000 * model.PeriodS)..].Average(), 0.002);
    }

    [Fact]
    public void Missing_samples_change_nothing_that_the_head_does_not()
    {
        // A slow closure makes no front that could hide between the samples left.
        (double[] times, double[] heads, double[] truth) = Close(Pipe, 1.3, 0.3);
        var random = new Random(5);
        int[] kept = [.. Enumerable.Range(0, times.Length).Where(i => i < 5 || random.NextDouble() > 0.15)];
        double[] found = Invert(Pipe, [.. kept.Select(i => times[i])], [.. kept.Select(i => heads[i])], 1.3);

        Assert.Equal(kept.Average(i => truth[i]), found.Average(), 0.01 * 1.3);
    }

    private static (double[] TimesS, double[] HeadsM, double[] Truth) Close(ColumnModel model, double velocity, double closureS)
    {
        var pipe = new SlowPipe(
            model.LengthM, model.WaveSpeedMPerS, model.SupplyHeadM, model.EntranceLoss, model.PipeLoss, 60, velocity);
        double start = pipe.BodyHeadM;
        (List<double> times, List<double> heads, List<double> truth) = (new List<double>(), new List<double>(), new List<double>());
        (double t, double next) = (0, 0);
        while (t < 1.2)
        {
            // A valve that shuts linearly: v = opening × v0 × √(h/h0).
            double opening = Math.Clamp(1 - ((t - 0.1) / closureS), 0, 1);
            double k = opening * opening * velocity * velocity / start;
            pipe.Step((plus, b) =>
            {
                double v = (Math.Sqrt(Square(k * b) + (4 * k * Math.Max(0, plus))) - (k * b)) / 2;
                return (plus - (b * v), v);
            });
            t += pipe.StepS;
            if (t >= next)
            {
                times.Add(t);
                heads.Add(pipe.BodyHeadM);
                truth.Add(pipe.BodyVelocity);
                next += 1e-3;
            }
        }

        return ([.. times], [.. heads], [.. truth]);
    }

    private static double[] Invert(ColumnModel model, double[] times, double[] heads, double start)
    {
        double[] found = new double[times.Length];
        ColumnInversion.Run(times, heads, model, start, found);
        return found;
    }

    private static double Square(double x) => x * x;
}
