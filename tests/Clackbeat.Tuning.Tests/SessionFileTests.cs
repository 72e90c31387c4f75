using Clackbeat.Site;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

public sealed class SessionFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-tuning-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_session_comes_back_as_it_was_saved()
    {
        TuningSession session = Trials.Session([1, 1.1, 0.9], new Random(1))
            .With(new Trial { Setting = 11, Works = false, Why = "it stopped", Verdict = Hydraulics.Rating.PipeVerdict.Unknown });
        SessionFile.Save(Path(), session);
        TuningSession back = SessionFile.Load(Path());

        Assert.Equal(session.Knob, back.Knob);
        Assert.Equal(session.Trials.Select(t => (t.Setting, t.Works, t.Why, t.DeliveredM3PerS)), back.Trials.Select(t => (t.Setting, t.Works, t.Why, t.DeliveredM3PerS)));
        Assert.Equal(session.Trials[0].Stretches, back.Trials[0].Stretches);
        Assert.Single(Directory.GetFiles(_folder));
    }

    [Fact]
    public void What_a_twin_foretells_is_kept_with_its_trial_and_goes_with_it()
    {
        TwinCurve curve = Trials.Twin(share => share, share => 0.1 * share);
        TuningSession session = Trials.Session([1, 1.1], new Random(1));
        session = session with { Trials = [session.Trials[0] with { Twin = curve }, session.Trials[1]] };
        SessionFile.Save(Path(), session);
        TuningSession back = SessionFile.Load(Path());

        Assert.Equal(curve.Points.Select(p => (p.Setting, p.Twin)), back.Twin!.Points.Select(p => (p.Setting, p.Twin)));
        Assert.Equal(curve.Points.SelectMany(p => p.Others), back.Twin.Points.SelectMany(p => p.Others));
        Assert.Null(back.Without(0).Twin);
    }

    [Fact]
    public void A_bound_is_still_a_bound_when_the_session_is_read_again()
    {
        Trial bounded = Trials.Of(5, 1e-4, 0.5, 3e5, new Random(1), 0.01);
        bounded = bounded with { DeliveredM3PerS = bounded.DeliveredM3PerS!.Value.AtMost(), Efficiency = bounded.Efficiency!.Value.AtMost() };
        SessionFile.Save(Path(), Trials.Empty().With(bounded));
        Trial back = Assert.Single(SessionFile.Load(Path()).Trials);

        Assert.True(back.DeliveredM3PerS!.Value.IsUpperBound);
        Assert.True(back.Efficiency!.Value.IsUpperBound);
        Assert.False(back.PeakPa!.Value.IsUpperBound);
    }

    [Theory]
    [InlineData("")]
    [InlineData("t_s,p_kPa\n0,1\n")]
    [InlineData("{\"schema\":\"clackbeat.tuning/1\"}")]
    [InlineData("{\"schema\":\"clackbeat.tuning/1\",\"session\":null}")]
    [InlineData("{\"schema\":\"something/2\",\"session\":{\"ram\":\"a\",\"knob\":{\"name\":\"s\",\"unit\":\"mm\",\"lowest\":1,\"highest\":2},\"aim\":\"most-delivered\"}}")]
    [InlineData("{\"schema\":\"clackbeat.tuning/1\",\"session\":{\"ram\":\"a\",\"knob\":{\"name\":\"s\",\"unit\":\"mm\",\"lowest\":2,\"highest\":1},\"aim\":\"most-delivered\"}}")]
    [InlineData("{\"schema\":\"clackbeat.tuning/1\",\"session\":{\"ram\":\"a\",\"knob\":{\"name\":\"s\",\"unit\":\"mm\",\"lowest\":1,\"highest\":2},\"aim\":\"most-delivered\",\"trials\":[{\"setting\":1,\"works\":true,\"verdict\":\"within\"}]}}")]
    public void What_is_no_session_is_refused_with_the_file_named(string text)
    {
        File.WriteAllText(Path(), text);

        Assert.Contains("valve.tune", Assert.Throws<InputException>(() => SessionFile.Load(Path())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_session_is_told_how_to_begin() =>
        Assert.Contains("tune new", Assert.Throws<InputException>(() => SessionFile.Load(Path())).Message, StringComparison.Ordinal);

    [Fact]
    public void A_setting_outside_the_range_is_refused() =>
        Assert.Contains("4 mm to 12 mm", Assert.Throws<InputException>(() =>
            Trials.Empty().With(Trials.Of(13, 1e-4, 0.5, 3e5, new Random(1), 0.01))).Message, StringComparison.Ordinal);

    private string Path() => System.IO.Path.Combine(_folder, "valve.tune");
}
