using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Recordings;
using Clackbeat.Words;

namespace Clackbeat.Watch.Checks;

/// <summary>Where the tests by hand stand.</summary>
/// <param name="Phase">Code of the phase: <see cref="CheckDesk.Idle"/>, <see cref="CheckDesk.Busy"/>, or one of the running test's.</param>
/// <param name="LeftS">Time that this phase needs still [s].</param>
/// <param name="Test">The test that runs; the one that is proposed where none runs; null where none is.</param>
/// <param name="Sequence">The sequence; null where none was begun.</param>
/// <param name="Reading">What the newest test showed; null until one was read.</param>
/// <param name="Lack">Why what was asked for can't be done; null where it can.</param>
public sealed record CheckState(string Phase, double LeftS, HandTest? Test, CheckSequence? Sequence, HandReading? Reading, Fact? Lack)
{
    /// <summary>A test runs.</summary>
    public bool IsRunning => Phase is not (CheckDesk.Idle or CheckDesk.Busy);
}

/// <summary>
/// Leads through the tests by hand on the samples that come in anyway: judges the newest minute, proposes the test that decides, waits until the
/// keeper says that hands are where they belong, lets each phase last as long as its reading needs, reads the end at once, and proposes the next.
/// The live page and the command line are two faces of it. Samples come on the source's thread, wishes on any.
/// </summary>
/// <param name="site">The ram.</param>
/// <param name="desk">Records the test; null where nothing can be recorded.</param>
/// <param name="book">Keeps what was shown.</param>
/// <param name="newestMinute">Analyses the newest minute; null where there are no samples.</param>
/// <param name="hands">Hands at a virtual ram; null at one of iron.</param>
public sealed class CheckDesk(RamSite site, RecordingDesk? desk, ICheckBook book, Func<RamAnalysis?> newestMinute, IRamHands? hands = null)
{
    /// <summary>No test runs.</summary>
    public const string Idle = "idle";

    /// <summary>Something is being read.</summary>
    public const string Busy = "busy";

    // Nobody holds a valve so long: the test was forgotten.
    private const double LongestS = 1200;

    private const double SecondsOfBucket = 60;

    private readonly Lock _gate = new();
    private readonly List<double> _timesS = [];
    private readonly List<double> _pressuresPa = [];
    private CheckSequence? _sequence = book.Newest is { IsDecided: false } open ? open : null;
    private HandTest? _test;
    private int _phase;
    private double _phaseFromS = double.NaN;
    private double _beganS = double.NaN;
    private double _newestS = double.NaN;
    private double _pushedS;
    private bool _isBusy;
    private BucketTest? _bucket;
    private RamAnalysis? _before;
    private HandReading? _reading;
    private Fact? _lack;

    /// <summary>Where it stands.</summary>
    public CheckState State
    {
        get
        {
            lock (_gate)
            {
                return new CheckState(
                    _isBusy ? Busy : _test?.Phases[_phase].Code ?? Idle, _isBusy ? 0 : LeftS, _test ?? _sequence?.Next, _sequence, _reading, _lack);
            }
        }
    }

    private double LeftS => _test is null ? 0
        : double.IsNaN(_phaseFromS) ? _test.Phases[_phase].LeastS
        : Math.Max(0, _test.Phases[_phase].LeastS - (_newestS - _phaseFromS));

    /// <summary>Judges the newest minute and begins a sequence with what it leaves open.</summary>
    public Task Judge() => Work(() =>
    {
        RamAnalysis? minute = newestMinute();
        CheckSequence? begun = minute is null ? null : CheckSequence.Begin(minute);
        if (begun is not null)
        {
            book.Begin(begun, null);
        }

        return () => (_sequence, _reading, _lack) = (begun, null, begun is null ? Fact.Of("check-run-not-judged") : null);
    });

    /// <summary>Begins a test. One that runs goes on.</summary>
    /// <param name="code">Code of the test; null takes the one that is proposed.</param>
    /// <exception cref="IOException">The recording can't be made.</exception>
    public Task Begin(string? code = null)
    {
        HandTest? test = code is null ? State.Test : HandTest.Of(code);
        if (test is null || State.Phase != Idle)
        {
            return Task.CompletedTask;
        }

        return Work(() =>
        {
            RamAnalysis? before = test.IsRepeat ? newestMinute() : null;
            if (test.IsRepeat && before?.Signature is null)
            {
                return () => _lack = Fact.Of("check-run-not-judged");
            }

            return () => Start(test, before);
        });
    }

    /// <summary>The keeper has done what the next phase asks for; too early it changes nothing.</summary>
    /// <param name="bucket">What the bucket caught, where the phase asks for it.</param>
    public void Next(BucketTest? bucket = null)
    {
        HandTest test;
        lock (_gate)
        {
            if (_isBusy || _test is null || LeftS > 0)
            {
                return;
            }

            test = _test;
            if (Asks)
            {
                _bucket = bucket ?? Caught();
                if (_bucket is not null)
                {
                    Finish();
                }

                return;
            }

            // The last phase ends by itself, once it has lasted long enough.
            if (_phase == _test.Phases.Count - 1)
            {
                return;
            }

            desk?.Mark(DoneWords(_test.Phases[_phase].Code));
            Enter(_phase + 1);
        }

        hands?.Act(test.Code, State.Phase);
    }

    /// <summary>Breaks the running test off.</summary>
    public void Cancel()
    {
        HandTest? test;
        lock (_gate)
        {
            (test, _test) = (_test, null);
        }

        desk?.End();
        if (test is not null)
        {
            hands?.Leave(test.Code);
        }
    }

    /// <summary>Takes a sample.</summary>
    /// <param name="timeS">Its time [s].</param>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    public void Take(double timeS, double pressurePa)
    {
        lock (_gate)
        {
            _newestS = timeS;
            if (_test is null || _isBusy)
            {
                return;
            }

            _phaseFromS = double.IsNaN(_phaseFromS) ? timeS : _phaseFromS;
            _beganS = double.IsNaN(_beganS) ? timeS : _beganS;
            if (timeS - _beganS > LongestS)
            {
                _test = null;
                return;
            }

            if (_test.Phases[_phase].IsRecorded)
            {
                _timesS.Add(timeS);
                _pressuresPa.Add(pressurePa);
            }

            if (LeftS <= 0 && _test.Phases[_phase].LeastS > 0 && _phase == _test.Phases.Count - 1)
            {
                Finish();
            }
        }
    }

    /// <summary>What a keeper says when a phase is done.</summary>
    /// <param name="phase">Code of the phase.</param>
    public static string DoneWords(string phase) => phase switch
    {
        "hold" => Phrases.Say("page.hand.next.hold"),
        "gate" => Phrases.Say("page.hand.next.gate"),
        "do" => Phrases.Say("page.hand.next.do"),
        _ => Phrases.Say("page.hand.next.record"),
    };

    // At a virtual ram nobody can hold a bucket: what arrives is known there.
    private BucketTest? Caught() => hands?.ArrivingM3PerS is > 0 and { } flow
        ? new BucketTest { Outlet = BucketOutlet.Delivery, VolumeM3 = flow * SecondsOfBucket, TimeS = SecondsOfBucket, OfThisRecord = true }
        : null;

    private bool Asks => _test?.Phases[_phase].Code == "bucket";

    private void Start(HandTest test, RamAnalysis? before)
    {
        _timesS.Clear();
        _pressuresPa.Clear();
        (_test, _before, _bucket, _beganS, _reading, _lack) = (test, before, null, double.NaN, null, null);
        Enter(0);
        hands?.Act(test.Code, test.Phases[0].Code);
    }

    private void Enter(int phase)
    {
        (_phase, _phaseFromS) = (phase, double.NaN);
        if (_test!.Phases[phase].Code == "release")
        {
            _pushedS = _timesS.Count > 0 ? _timesS[^1] - _timesS[0] : 0;
        }

        if (_test.Phases[phase].IsRecorded && desk is { CanRecord: true, Current: null })
        {
            desk.Begin();
        }
    }

    private void Finish()
    {
        (HandTest test, double[] times, double[] pressures) = (_test!, [.. _timesS], [.. _pressuresPa]);
        string? file = desk?.End() is { } ended ? Path.GetFileName(ended.Path) : null;
        Work(() =>
        {
            hands?.Leave(test.Code);
            HandReading reading = Read(test, times, pressures);
            book.Keep(reading, file);
            return () => (_reading, _sequence, _test) = (reading, _sequence?.After(new CheckStep(reading.Test, reading.Verdict)), null);
        });
    }

    private HandReading Read(HandTest test, double[] timesS, double[] pressuresPa)
    {
        switch (test.Code)
        {
            case HandTest.Shut:
                return HandReading.Of(ShutTest.Read(timesS, pressuresPa, site, isGateAtIntake: false, _pushedS));
            case HandTest.Level:
                return HandReading.Of(test.Code, LevelReading.Read(timesS, pressuresPa, site));
        }

        var analyser = new RamAnalyser(site);
        analyser.Add(timesS, pressuresPa);
        RamAnalysis record = analyser.Finish(test.Code);
        return HandReading.Of(test.Code, test.Code == HandTest.Bucket ? BucketReading.Read(record, _bucket!) : RepeatReading.Read(test.Code, _before!, record));
    }

    // What takes seconds is done beside the samples, which must not wait for it.
    private Task Work(Func<Action> work)
    {
        lock (_gate)
        {
            if (_isBusy)
            {
                return Task.CompletedTask;
            }

            _isBusy = true;
        }

        return Task.Run(() =>
        {
            Action then = () => { };
            try
            {
                then = work();
            }
            catch (InputException fault)
            {
                then = () => (_test, _lack) = (null, fault.What);
            }
            finally
            {
                lock (_gate)
                {
                    _isBusy = false;
                    then();
                }
            }
        });
    }
}
