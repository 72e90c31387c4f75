using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>The allowable recurring pressure, how it came about and what other sources would say.</summary>
internal sealed record Allowable
{
    internal RatedPressure? Rated { get; private init; }

    internal double Temperature { get; private init; } = 1;

    internal double Joint { get; private init; } = 1;

    internal required RecurringRule Rule { get; init; }

    internal double? Pa { get; private init; }

    /// <summary>The same without the recurring rule's factor [Pa].</summary>
    internal double? SteadyPa => Pa / Rule.Factor;

    internal List<Sentence> Notes { get; } = [];

    internal List<RatingAlternative> Alternatives { get; } = [];

    internal static Allowable Of(PipeLoad load)
    {
        var rule = RecurringRule.For(load.Material);
        var candidates = RatedPressure.Candidates(load);
        var joint = candidates.Count > 0 ? JointFactor(load, candidates[0]) : 1;
        var temperature = TemperatureOf(load);
        var factor = joint * rule.Factor * (temperature?.Factor ?? 0);
        var result = new Allowable
        {
            Rule = rule,
            Rated = candidates.Count > 0 ? candidates[0] : null,
            Temperature = temperature?.Factor ?? 1,
            Joint = joint,
            Pa = candidates.Count > 0 && temperature is not null ? candidates[0].RatedPa * factor : null,
        };
        result.Explain(load, candidates, temperature);
        return result;
    }

    private static double JointFactor(PipeLoad load, RatedPressure rated) =>
        load.Joint == PipeJoint.Threaded && !rated.ThreadsCounted ? 0.5 : 1;

    private static TemperatureFactor? TemperatureOf(PipeLoad load)
    {
        // 20 °C is where ratings are given; a stream's water is colder, and cold never weakens a pipe in these rules.
        var factors = TemperatureFactors.At(load.Material, load.TemperatureC ?? 20);
        if (factors.Count > 0)
        {
            return factors[0];
        }

        return (load.TemperatureC ?? 20) <= 23 ? new TemperatureFactor(1, "none needed", "cold water") : null;
    }

    private void Explain(PipeLoad load, IReadOnlyList<RatedPressure> candidates, TemperatureFactor? temperature)
    {
        if (candidates.Count == 0)
        {
            Notes.Add("No rating is known: give the pressure printed on the pipe, or its material, class and wall thickness.");
            return;
        }

        ExplainTemperature(load, candidates[0], temperature);
        if (Joint < 1)
        {
            Notes.Add("Threads cut into plastic pipe halve its rating, and only Schedule 80 or thicker may be threaded (Harvel).");
        }

        if (load.Joint == PipeJoint.Unknown && RatedPressure.MayBeThreaded(load) && load.PrintedRatingPa is null)
        {
            Notes.Add("How the steel is joined is left out: threads are supposed and taken off the wall.");
        }

        if (Pa is not null)
        {
            AddAlternatives(load, candidates);
        }

        if (Rule.Note.Length > 0)
        {
            Notes.Add(Rule.Note);
        }
    }

    private void AddAlternatives(PipeLoad load, IReadOnlyList<RatedPressure> candidates)
    {
        var shared = Joint * Rule.Factor * Temperature;
        Alternatives.AddRange(candidates.Skip(1).Select(c => new RatingAlternative(
            c.RatedPa * shared, $"{c.Source}; the lowest that fits was taken. What is printed on the pipe decides.")));
        if (Rule.Factor > 1)
        {
            Alternatives.Add(new RatingAlternative(
                SteadyPa!.Value, "the plain rating, without the recurring-surge allowance"));
        }

        AddCodeChecks(load);
    }

    private void AddCodeChecks(PipeLoad load)
    {
        if (load.Material is PipeMaterial.Steel or PipeMaterial.GalvanisedSteel
            && load.KnownWallM is { } wall && load.OutsideM is { } outside)
        {
            Alternatives.Add(new RatingAlternative(
                WallFormulas.BarlowPa(0.7 * 241.3e6, wall, outside),
                "Barlow at 70 % of the yield of ASTM A53 Grade B on the full wall: a check of the metal, not a working rating, "
                + "for it leaves out mill tolerance, threads, weld and rust"));
        }

        if (load.Material == PipeMaterial.PvcU && Pa is { } allowed)
        {
            Alternatives.Add(new RatingAlternative(
                allowed / 2,
                "the old British rule CP 312 for recurring surges, swing from trough to peak ≤ half the rating (Marshall et al.)"));
        }
    }

    private void ExplainTemperature(PipeLoad load, RatedPressure rated, TemperatureFactor? temperature)
    {
        if (temperature is null)
        {
            Notes.Add(Say.Text($"No temperature factor is published here for this pipe at {load.TemperatureC:0.#} °C: ask its maker."));
            return;
        }

        if (load.TemperatureC is null && !RatedPressure.IsMetal(load.Material))
        {
            Notes.Add("The pipe's temperature is left out: 20 °C or less is supposed. Plastic in the sun gets much warmer and weaker.");
        }

        foreach (var other in TemperatureFactors.At(load.Material, load.TemperatureC ?? 20).Where(o => o.Factor > Temperature + 1e-9))
        {
            Alternatives.Add(new RatingAlternative(
                rated.RatedPa * Joint * Rule.Factor * other.Factor,
                Say.Text($"temperature factor {other.Factor:0.00} by {other.Source}; the lower {Temperature:0.00} was taken")));
        }
    }
}
