using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site;
using Clackbeat.Site.Physics;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;

namespace Clackbeat.Unattended.Live;

/// <summary>Why a look at the running ram ended.</summary>
internal enum LookEnd
{
    /// <summary>The next burst is due, or the log is to end.</summary>
    Due,

    /// <summary>The ram changed.</summary>
    Changed,

    /// <summary>The logger can't be heard.</summary>
    Lost,
}

/// <summary>Looks at the running ram between bursts; keeps nothing.</summary>
internal sealed class BetweenBursts(RamSettings ram, ChangeLimits limits, LogWorld world)
{
    private static readonly TimeSpan PollInterval = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(6);
    private static readonly TimeSpan StartAgain = TimeSpan.FromSeconds(2.5);
    private static readonly TimeSpan SilencePatience = TimeSpan.FromSeconds(12);

    private readonly ChangeWatch _watch = new(ram.Site, limits);
    private readonly SensorConversion _conversion = SiteSensing.ConversionOf(ram.Site);
    private BeatChange? _change;

    /// <summary>Says what the ram did in its last burst.</summary>
    public void Expect(SeasonBurst burst) => _watch.Expect(burst);

    /// <summary>Looks until something changes or it is time.</summary>
    /// <param name="port">Where the logger is.</param>
    /// <param name="logger">Which one it must be.</param>
    /// <param name="isDue">Called often; true ends the look.</param>
    /// <param name="change">What changed.</param>
    /// <param name="stop">Ends the look.</param>
    public LookEnd Look(string port, string logger, Func<bool> isDue, out BeatChange change, CancellationToken stop)
    {
        _change = null;
        LookEnd end;
        try
        {
            using var talk = LoggerTalk.Open(world.Line(port, ram.Baud), world.Time);
            end = talk.Identify(Patience, stop) is { } hello && SessionHeader.DeviceOf(hello) == logger
                ? Follow(talk, hello, isDue, stop)
                : LookEnd.Lost;
        }
        catch (Exception fault) when (fault is LineException or InputException)
        {
            end = LookEnd.Lost;
        }

        change = _change ?? BeatChange.Stopped;
        return stop.IsCancellationRequested ? LookEnd.Due : end;
    }

    private LookEnd Follow(LoggerTalk talk, Hello hello, Func<bool> isDue, CancellationToken stop)
    {
        var reader = new FrameReader();
        reader.Know(hello.Protocol, hello.Fingerprint);
        List<LoggerSample> samples = [];
        long heard = world.Time.GetTimestamp();
        talk.Tap = chunk =>
        {
            reader.Read(chunk.Bytes, samples);
            heard = samples.Count > 0 ? chunk.Timestamp : heard;
            Take(samples);
            samples.Clear();
        };
        talk.Ask(
            () => talk.TrySend(BurstTaker.StartOf(ram)),
            b => (b.Length >= 3 && b[0] == Kinds.Answer && b[1] == Kinds.Start) || LoggerTalk.IsHello(b, Modes.Streaming),
            Patience,
            stop,
            StartAgain);
        LookEnd end = Wait(talk, isDue, () => heard, stop);
        talk.TrySend(Kinds.Stop);
        return end;
    }

    private LookEnd Wait(LoggerTalk talk, Func<bool> isDue, Func<long> heard, CancellationToken stop)
    {
        while (!isDue() && _change is null && !talk.HasEnded && !stop.IsCancellationRequested)
        {
            talk.Step(PollInterval, stop);
            if (world.Time.GetElapsedTime(heard(), Math.Max(talk.TakenUntil, heard())) > SilencePatience)
            {
                return LookEnd.Lost;
            }
        }

        return _change is not null ? LookEnd.Changed : talk.HasEnded ? LookEnd.Lost : LookEnd.Due;
    }

    private void Take(List<LoggerSample> samples)
    {
        foreach (LoggerSample sample in samples)
        {
            _change ??= _watch.Add(sample.DeviceTimeMicroseconds * 1e-6, _conversion.PressurePaAt(sample.Counts, sample.SupplyCounts));
        }
    }
}
