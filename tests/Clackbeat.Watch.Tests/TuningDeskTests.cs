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

    private static readonly TuningPace Pace = new() { TrialS = 45, SettleS = 30, CompareS = 15, FitsTwin = false };
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

    [Fact]
    public void A_trial_in_which_the_ram_stops_has_no_figures_and_fences_off_what_lies_beyond()
    {
        Begin();
        MakeTrial("8");
        Do(TuningAct.Choose, "10");
        Do(TuningAct.IsSafe);
        Do(TuningAct.IsSet);
        RunUntil(TuningPhase.Record);
        Run(10);
        _ram.IsHeld = true;
        RunUntil(TuningPhase.Result, 30);
        Assert.Equal((false, TrialLack.StoppedShut), (_desk.State.Result!.Works, _desk.State.Result.Lack));
        Do(TuningAct.Keep);
        Assert.Contains(_desk.State.Found!.Picture.Barred, b => b.Why == BarredBy.Stopped && b.To >= 11.9);
        Assert.True(_desk.State.Found.Advice.Setting < 10);
    }

    [Fact]
    public void A_lost_link_throws_the_trial_away_and_makes_it_anew_at_the_same_setting()
    {
        Begin();
        Do(TuningAct.Choose, "8");
        RunUntil(TuningPhase.Record);
        Run(10);
        _pipeline.Tell(LinkState.Lost, "");
        Run(0.1);
        Assert.Equal((TuningPhase.Settle, "link", 8.0), (_desk.State.Phase, _desk.State.Notice!.Code, _desk.State.Setting!.Value));
        Run(2 * Pace.SettleS);
        Assert.Equal(TuningPhase.Settle, _desk.State.Phase);
        _pipeline.Tell(LinkState.Streaming, "");
        RunUntil(TuningPhase.Record);
        double beganS = _nowS;
        RunUntil(TuningPhase.Result);
        Assert.True(_nowS - beganS >= Pace.TrialS);
    }

    [Fact]
    public void Thrown_away_broken_off_and_dropped_trials_leave_no_trace_in_the_file()
    {
        Begin();
        Do(TuningAct.Choose, "8");
        RunUntil(TuningPhase.Record);
        Do(TuningAct.Cancel);
        Assert.Equal(TuningPhase.Ready, _desk.State.Phase);
        Run(1);
        MakeTrial("8", keep: false);
        Assert.Empty(SessionFile.Load(OnlyFile()).Trials);
        MakeTrial("8");
        Assert.Single(SessionFile.Load(OnlyFile()).Trials);
        Do(TuningAct.Drop, index: 0);
        Assert.Empty(SessionFile.Load(OnlyFile()).Trials);
        Assert.Equal("stale", _desk.Do(TuningAct.Drop, _desk.State.Revision, null, 0)!.Code);
    }

    [Fact]
    public void Of_two_devices_that_ask_at_once_the_second_is_told_that_things_moved_on()
    {
        Begin();
        int seen = _desk.State.Revision;
        Assert.Null(_desk.Do(TuningAct.Choose, seen, "10", null));
        Assert.Equal("stale", _desk.Do(TuningAct.Choose, seen, "6", null)!.Code);
        Assert.Equal(10, _desk.State.Setting);
        Assert.Equal("stale", _desk.Do(TuningAct.IsSet, _desk.State.Revision, null, null)!.Code);
    }

    [Fact]
    public void What_another_program_adds_to_the_file_is_taken_over_and_the_session_is_found_again()
    {
        Begin();
        string path = OnlyFile();
        SessionFile.Save(path, SessionFile.Load(path).With(TrialReader.Stood(11, TrialLack.StoppedOpen, "by hand")));
        File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddSeconds(2));
        Run(1.5);
        Assert.Equal(11, Assert.Single(_desk.State.Session!.Trials).Setting);
        TuningDesk later = Desk();
        Assert.Equal(Path.GetFileName(path), Assert.Single(later.State.Kept).Name);
        Assert.Null(later.Open(Path.GetFileName(path)));
        Assert.Equal(11, Assert.Single(later.State.Session!.Trials).Setting);
    }

    [Theory]
    [InlineData("../ram.tune")]
    [InlineData("/etc/passwd")]
    [InlineData("")]
    [InlineData("valve.tune")]
    public void A_name_that_is_no_session_of_the_folder_opens_nothing(string name)
    {
        File.WriteAllText(Path.Combine(_folder, "valve.tune"), "{}");
        Assert.Equal("no-file", _desk.Open(name)!.Code);
    }

    // A whole session of this very ram lies beside the folder, so that only the name stands in the way.
    [Fact]
    public void A_session_outside_the_folder_is_not_opened_by_any_way_of_naming_it()
    {
        Begin();
        string beside = _folder + "-beside";
        Directory.CreateDirectory(beside);
        try
        {
            string path = Path.Combine(beside, "valve.tune");
            File.Copy(OnlyFile(), path);
            string up = $"../{Path.GetFileName(beside)}/valve.tune";
            foreach (string name in new[] { path, up, $"./{up}", up.Replace('/', '\\'), $"sub/../{up}", Uri.EscapeDataString(up), up + "\0", $"{Path.GetFileName(OnlyFile())}/../{up}" })
            {
                Assert.Equal("no-file", Desk().Open(name)!.Code);
            }

            Assert.Null(Desk().Open(Path.GetFileName(OnlyFile())));
        }
        finally
        {
            Directory.Delete(beside, recursive: true);
        }
    }

    [Theory]
    [InlineData("low", "12", "upside-down", "high")]
    [InlineData("low", "-1", "negative", "low")]
    [InlineData("low", "four", "number", "low")]
    [InlineData("high", "", "number", "high")]
    [InlineData("high", "1e999", "number", "high")]
    [InlineData("high", "NaN", "number", "high")]
    [InlineData("unit", "", "unit", "unit")]
    [InlineData("unit", "turns", "virtual", "unit")]
    [InlineData("step", "9", "step", "step")]
    [InlineData("step", "-1", "negative", "step")]
    [InlineData("now", "13", "now-outside", "now")]
    [InlineData("now", "", "number", "now")]
    [InlineData("aim", "most-fun", "aim", "aim")]
    [InlineData("enough", "0", "enough", "enough")]
    [InlineData("knob", "", "knob", "knob")]
    [InlineData("knob", "s; rm -rf", "knob", "knob")]
    public void A_form_that_makes_no_sense_says_what_is_wrong_and_where(string field, string typed, string code, string at)
    {
        SessionForm gentle = Form with { Aim = "gentlest-peak", Enough = "5" };
        TuningProblem problem = _desk.Begin(field switch
        {
            "low" => gentle with { Low = typed },
            "high" => gentle with { High = typed },
            "unit" => gentle with { Unit = typed },
            "step" => gentle with { Step = typed },
            "now" => gentle with { Now = typed },
            "aim" => gentle with { Aim = typed },
            "enough" => gentle with { Enough = typed },
            _ => gentle with { Knob = typed },
        })!;
        Assert.Equal((code, at), (problem.Code, problem.Field));
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.Equal(TuningPhase.Closed, _desk.State.Phase);
    }

    [Fact]
    public void A_comma_is_a_decimal_mark_and_gallons_are_gallons()
    {
        Assert.Null(_desk.Begin(Form with { Low = "4,5", Aim = "gentlest-peak", Enough = "2", Units = "us" }));
        Assert.Equal(4.5, _desk.State.Session!.Knob.Lowest);
        // 1 US gallon is 3.785411784 L (NIST SP 811, appendix B).
        Assert.Equal(2 * 3.785411784e-3 / 60, _desk.State.Session.EnoughM3PerS!.Value, 1e-12);
    }

    private void Begin() => Assert.Null(_desk.Begin(Form));

    private string OnlyFile() => Assert.Single(Directory.GetFiles(_folder));

    private void MakeTrial(string setting, bool keep = true)
    {
        Do(TuningAct.Choose, setting);
        RunUntil(TuningPhase.Result);
        Do(keep ? TuningAct.Keep : TuningAct.Reject);
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
