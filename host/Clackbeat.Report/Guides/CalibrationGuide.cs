using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Guides;

/// <summary>The calibration guide: what is needed, step by step with the commands to type, and what each kind of point is worth.</summary>
/// <param name="site">The reader's ram; null for none.</param>
/// <param name="siteFile">Name of its site file, for the commands.</param>
/// <param name="units">Units to begin with.</param>
internal sealed class CalibrationGuide(RamSite? site, string siteFile, Units units)
{
    private string Base => $"clackbeat calibrate /dev/ttyUSB0 --site {siteFile} --points points.csv";

    private (string Low, string High) Columns => units == Units.Us ? ("6 ft", "16 ft") : ("2 m", "5 m");

    public ReportContent Make() => new(
        Phrases.Say("guide-calibrate.title"),
        $"{Phrases.Say("guide-calibrate.why")} {Phrases.Say("guide-calibrate.when")}",
        new Verdict(Tone.Stop, Phrases.Say("guide.part-caution"), Phrases.Say("guide-calibrate.caution-pressure"), [Phrases.Say("guide-calibrate.caution-pump"), Phrases.Say("guide-calibrate.caution-ladder")]),
        [
            new Section("need", Phrases.Say("guide-calibrate.need-title"), Need()),
            new Section("steps", Phrases.Say("guide-calibrate.steps-title"), Steps()),
            new Section("refused", Phrases.Say("guide-calibrate.refuse-title"), [new Bullets([Phrases.Say("guide-calibrate.refuse-still"), Phrases.Say("guide-calibrate.refuse-contradicts")])]),
            new Section("points", Phrases.Say("guide-calibrate.point-title"), [Points()]),
            new Section("high", Phrases.Say("guide-calibrate.high-title"), High()),
            new Section("good", Phrases.Say("guide-calibrate.good-title"),
                [new Bullets([Phrases.Say("guide-calibrate.good-span"), Phrases.Say("guide-calibrate.good-above"), Phrases.Say("guide-calibrate.good-temperature")])]),
        ])
    {
        Kind = Phrases.Say("guide-calibrate.kind"),
        Units = units,
    };

    private List<Block> Need()
    {
        List<Block> blocks =
        [
            new Bullets(
            [
                Phrases.Say("guide-calibrate.need-logger"),
                Phrases.Say("guide-calibrate.need-hose"),
                Phrases.Say("guide-calibrate.need-thermometer"),
                Phrases.Say("guide-calibrate.need-gauge"),
            ]),
        ];
        if (site is not null && Show.Of(Kind.Pressure, site.Sensor.RangeLowPa) is { } low && Show.Of(Kind.Pressure, site.Sensor.RangeHighPa) is { } high)
        {
            blocks.Add(new Paragraph(Rich.Say("guide-calibrate.sensor", ("low", low), ("high", high))));
        }

        return blocks;
    }

    private List<Block> Steps()
    {
        (Rich Text, string? Command)[] steps =
        [
            (Phrases.Say("guide-calibrate.step-connect"), null),
            (Phrases.Say("guide-calibrate.step-air"), $"{Base} --reference air"),
            (Phrases.Say("guide-calibrate.step-column"), $"{Base} --reference \"{Columns.Low}\" --latitude 47"),
            (Phrases.Say("guide-calibrate.step-higher"), $"{Base} --reference \"{Columns.High}\" --latitude 47"),
            (Phrases.Say("guide-calibrate.step-top"), units == Units.Us
                ? $"{Base} --reference \"60 psi\" --gauge-error \"0.9 psi\""
                : $"{Base} --reference \"4.2 bar\" --gauge-error \"0.06 bar\""),
            (Phrases.Say("guide-calibrate.step-make"), $"clackbeat calibrate --site {siteFile} --points points.csv --latitude 47 --out calibration.toml"),
            (Phrases.Say("guide-calibrate.step-name"), "[sensor]\ncalibration = \"calibration.toml\""),
            (Phrases.Say("guide-calibrate.step-check"), $"clackbeat site check {siteFile}"),
        ];
        var blocks = new List<Block>();
        foreach (((Rich text, string? command), int number) in steps.Select((s, i) => (s, i + 1)))
        {
            blocks.Add(new Paragraph(Rich.Of($"{number}. {text}")));
            if (command is not null)
            {
                blocks.Add(new Code(command));
            }
        }

        return blocks;
    }

    private static Table Points() => new(
        Phrases.Say("guide-calibrate.point-title"),
        [Phrases.Say("guide-calibrate.point-reference"), Phrases.Say("guide-calibrate.point-written"), Phrases.Say("guide-calibrate.point-worth")],
        [
            new TableGroup(null,
            [
                new TableRow(Phrases.Say("guide-calibrate.point-air"), Rich.Empty, ["air", Phrases.Say("guide-calibrate.point-air-worth")]),
                new TableRow(Phrases.Say("guide-calibrate.point-column"), Rich.Empty, ["\"2\u00A0m\"", Phrases.Say("guide-calibrate.point-column-worth")]),
                new TableRow(Phrases.Say("guide-calibrate.point-gauge"), Rich.Empty, ["\"4.2\u00A0bar\" --gauge-error \"0.06\u00A0bar\"", Phrases.Say("guide-calibrate.point-gauge-worth")]),
                new TableRow(Phrases.Say("guide-calibrate.point-meter"), Rich.Empty, ["\"2.50\u00A0V of 5.02\u00A0V\", \"12\u00A0mA\"", Phrases.Say("guide-calibrate.point-meter-worth")]),
            ]),
        ])
    {
        IsText = true,
    };

    private List<Block> High()
    {
        List<Rich> said = [Phrases.Say("guide-calibrate.high-supply"), Phrases.Say("guide-calibrate.high-main")];
        if (site is not null && Show.Of(Kind.Length, site.Supply.HeadM) is { } supply && Show.Of(Kind.Length, site.Delivery.HeadM) is { } lift)
        {
            said.Add(Rich.Say("guide-calibrate.high-here", ("supply", supply), ("lift", lift)));
        }

        return [new Bullets(said)];
    }
}
