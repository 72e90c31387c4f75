using System.Text.Json.Nodes;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site;
using Clackbeat.Twin.Files;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Tests;

public sealed class TwinFileTests : IDisposable
{
    private readonly string _path = Path.Combine(Path.GetTempPath(), $"twin-{Guid.NewGuid():N}.json");

    public void Dispose() => File.Delete(_path);

    [Fact]
    public void A_saved_twin_runs_as_the_ram_that_was_recorded()
    {
        var drawn = DrawnRam.Of(8005, PipeMaterial.PvcU, RamCharacter.Smooth, PipeDetail.Real);
        FittedTwin twin = FittedTwin.Of(drawn.Site, drawn.Analysed(20))!;
        File.WriteAllText(_path, TwinFile.Text(twin, "drawn.csv", DateTimeOffset.UnixEpoch));
        RamParameters loaded = TwinFile.Load(_path);
        RamParameters saved = RunningTwin.Of(twin);
        Assert.Equal(saved.WasteValve, loaded.WasteValve);
        Assert.Equal(saved.DrivePipe.Creep, loaded.DrivePipe.Creep);
        Assert.Equal(saved.DeliveryMain, loaded.DeliveryMain);

        // Rate by counting is known to a part in a hundred; the volume a beat is what a flow from pressure may miss.
        RamTotals truth = drawn.Truth(drawn.Ram, 20);
        RamTotals again = drawn.Truth(loaded, 20);
        Assert.InRange(again.BeatsPerMin!.Value / truth.BeatsPerMin!.Value, 0.97, 1.03);
        Assert.InRange(again.DeliveredM3 / again.DurationS / (truth.DeliveredM3 / truth.DurationS), 0.88, 1.12);

        // Of a part that is written as nothing no ram can be made.
        Assert.All(new[] { "water", "upstream", "waste_valve" }, part =>
        {
            JsonNode file = JsonNode.Parse(TwinFile.Text(twin, "drawn.csv", DateTimeOffset.UnixEpoch))!;
            file["ram"]![part] = null;
            What_is_no_twin_is_refused(file.ToJsonString());
        });
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("{}")]
    [InlineData("{\"schema\": 5}")]
    [InlineData("{\"schema\": \"clackbeat.twin/1\", \"ram\": {\"water\": 1}}")]
    public void What_is_no_twin_is_refused(string text)
    {
        File.WriteAllText(_path, text);
        Assert.Equal("whatif.no-twin-file", Assert.Throws<InputException>(() => TwinFile.Load(_path)).What.Code);
    }
}
