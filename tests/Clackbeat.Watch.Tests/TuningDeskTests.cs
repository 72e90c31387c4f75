using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Watch.Tests;

/// <summary>
/// A tuning session as the page's devices meet it, without a page: a virtual ram is watched sample by sample, and what
/// takes minutes at a real ram takes a second here.
/// </summary>
public sealed class TuningDeskTests : IDisposable
{
    private const double LookEveryS = 0.1;

    private static readonly TuningPace Pace = new() { TrialS = 45, SettleS = 30, CompareS = 15 };
    private static readonly SessionForm Form = new("stroke", "mm", "4", "12", "", "8", "most-delivered", "", "metric");

    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-tuning-desk-").FullName;
    private readonly TurnableRam _ram = new(Rams.Site);
    private readonly LivePipeline _pipeline = new(Rams.Site, TimeProvider.System);
    private readonly TuningDesk _desk;
    private readonly TrialWatch _watch;
    private double _nowS;

    public TuningDeskTests()
    {
        _desk = Desk();
        _watch = new TrialWatch(_desk, Rams.Site, _pipeline, null, Pace);
        _pipeline.Tell(LinkState.Streaming, "");
        Run(20);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_trial_goes_from_the_caution_to_its_figures_and_into_the_file()
    {
        Assert.Null(_desk.Begin(Form));
        Assert.Equal(8, _ram.StrokeMm, 1e-9);
        Do(TuningAct.Choose, "8");
        Assert.Equal(TuningPhase.Settle, _desk.State.Phase);
        RunUntil(TuningPhase.Record);
        double beganS = _nowS;
        RunUntil(TuningPhase.Result);
        Assert.InRange(_nowS - beganS, Pace.TrialS, Pace.TrialS + 1);
        Trial first = _desk.State.Result!;
        Assert.True(first.Works, first.Why);
        Do(TuningAct.Keep);

        double proposed = _desk.State.Found!.Advice.Setting!.Value;
        Do(TuningAct.Choose, proposed.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(TuningPhase.Safe, _desk.State.Phase);
        Assert.Equal(8, _ram.StrokeMm, 1e-9);
        Do(TuningAct.IsSafe);
        Do(TuningAct.IsSet);
        Assert.Equal(proposed, _ram.StrokeMm, 1e-9);
        double setS = _nowS;
        RunUntil(TuningPhase.Record);
        Assert.True(_nowS - setS >= Pace.SettleS);
        RunUntil(TuningPhase.Result);
        Do(TuningAct.Keep);

        TuningSession kept = SessionFile.Load(Assert.Single(Directory.GetFiles(_folder)));
        Assert.Equal([8, proposed], kept.Trials.Select(t => t.Setting));
        Assert.Equal(first.DeliveredM3PerS, kept.Trials[0].DeliveredM3PerS);
        Assert.Equal(NextSetting.Of(kept).Setting, _desk.State.Found!.Advice.Setting);
    }

    private TuningDesk Desk() => new(Rams.Site, new TuningFolder(_folder, Rams.Site.Name, TimeProvider.System), _ram, _pipeline);

    private void Do(TuningAct act, string? setting = null, int? index = null) => Assert.Null(_desk.Do(act, _desk.State.Revision, setting, index));

    private void Run(double lengthS)
    {
        for (double untilS = _nowS + lengthS; _nowS < untilS;)
        {
            List<double> timesS = [];
            List<double> pressuresPa = [];
            double pieceS = _nowS + LookEveryS;
            while (_nowS < pieceS)
            {
                (_nowS, double pressurePa) = _ram.Next();
                timesS.Add(_nowS);
                pressuresPa.Add(pressurePa);
            }

            _pipeline.Take(timesS.ToArray(), pressuresPa.ToArray());
            _watch.Step();
        }
    }

    private void RunUntil(TuningPhase phase, double mostS = 300)
    {
        for (double untilS = _nowS + mostS; _desk.State.Phase != phase;)
        {
            Assert.True(_nowS < untilS, $"{_desk.State.Phase} {_watch.Clock} after {mostS} s");
            Run(LookEveryS);
        }
    }
}
