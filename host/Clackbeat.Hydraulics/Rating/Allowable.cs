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

    internal List<RatingRemark> Notes { get; } = [];

    internal List<RatingAlternative> Alternatives { get; } = [];

    internal static Allowable Of(PipeLoad load)
    {
        var rule = RecurringRule.For(load.Material);
        IReadOnlyList<RatedPressure> candidates = RatedPressure.Candidates(load);
        double joint = candidates.Count > 0 ? JointFactor(load, candidates[0]) : 1;
        TemperatureFactor? temperature = TemperatureOf(load);
        double factor = joint * rule.Factor * (temperature?.Factor ?? 0);
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
        IReadOnlyList<TemperatureFactor> factors = TemperatureFactors.At(load.Material, load.TemperatureC ?? 20);
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
            Notes.Add(new RatingRemark(RatingRemarkCode.RatingUnknown));
            return;
        }

        if (candidates[0].Source.IsUnconfirmed)
        {
            Notes.Add(new RatingRemark(RatingRemarkCode.RatingUnconfirmed));
        }

        ExplainTemperature(load, candidates[0], temperature);
        if (Joint < 1)
        {
            Notes.Add(new RatingRemark(RatingRemarkCode.ThreadsHalvePlastic));
        }

        if (load.Joint == PipeJoint.Unknown && RatedPressure.MayBeThreaded(load) && load.PrintedRatingPa is null)
        {
            Notes.Add(new RatingRemark(RatingRemarkCode.ThreadsSupposed));
        }

        if (Pa is not null)
        {
            AddAlternatives(load, candidates);
        }

        if (Rule.Note is { } note)
        {
            Notes.Add(new RatingRemark(note));
        }
    }

    private void AddAlternatives(PipeLoad load, IReadOnlyList<RatedPressure> candidates)
    {
        double shared = Joint * Rule.Factor * Temperature;
        Alternatives.AddRange(candidates.Skip(1).Select(c => new RatingAlternative(c.RatedPa * shared, AlternativeBasis.OtherRating) { Source = c.Source }));
        if (Rule.Factor > 1)
        {
            Alternatives.Add(new RatingAlternative(SteadyPa!.Value, AlternativeBasis.PlainRating));
        }

        AddCodeChecks(load);
    }

    private void AddCodeChecks(PipeLoad load)
    {
        if (load.Material is PipeMaterial.Steel or PipeMaterial.GalvanisedSteel
            && load.KnownWallM is { } wall && load.OutsideM is { } outside)
        {
            Alternatives.Add(new RatingAlternative(
                WallFormulas.BarlowPa(0.7 * 241.3e6, wall, outside), AlternativeBasis.BarlowOnFullWall));
        }

        if (load.Material == PipeMaterial.PvcU && Pa is { } allowed)
        {
            Alternatives.Add(new RatingAlternative(allowed / 2, AlternativeBasis.HalfTheRating));
        }
    }

    private void ExplainTemperature(PipeLoad load, RatedPressure rated, TemperatureFactor? temperature)
    {
        if (temperature is null)
        {
            Notes.Add(new RatingRemark(RatingRemarkCode.NoTemperatureFactor) { TemperatureC = load.TemperatureC });
            return;
        }

        if (load.TemperatureC is null && !RatedPressure.IsMetal(load.Material))
        {
            Notes.Add(new RatingRemark(RatingRemarkCode.TemperatureSupposed));
        }

        foreach (TemperatureFactor? other in TemperatureFactors.At(load.Material, load.TemperatureC ?? 20).Where(o => o.Factor > Temperature + 1e-9))
        {
            Alternatives.Add(new RatingAlternative(
                rated.RatedPa * Joint * Rule.Factor * other.Factor, AlternativeBasis.OtherTemperatureFactor)
            {
                Citation = other.Source,
                Factor = other.Factor,
                TakenFactor = Temperature,
            });
        }
    }
}
