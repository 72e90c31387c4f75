namespace Clackbeat.Signal.Diagnosis;

/// <summary>What a record's features are held against: those of well rams at such a site, or of the same ram when it was well.</summary>
/// <param name="Features">The features, or their changes.</param>
/// <param name="Covariates">Site and recording, or how the recording differs from the baseline's.</param>
/// <param name="Circumstances">Site and recording themselves, of two records the coarser and noisier: how far features scatter depends on them.</param>
internal sealed record Comparison(
    IReadOnlyDictionary<Feature, double> Features, IReadOnlyDictionary<Covariate, double> Covariates, IReadOnlyDictionary<Covariate, double> Circumstances)
{
    /// <summary>Against what the site leads to expect.</summary>
    public static Comparison BySite(Signature now) => BySite(now.Features, now.Covariates);

    /// <summary>The same of features at hand.</summary>
    public static Comparison BySite(IReadOnlyDictionary<Feature, double> features, IReadOnlyDictionary<Covariate, double> covariates) =>
        new(features, covariates, covariates);

    /// <summary>Against the same ram when it was well.</summary>
    public static Comparison ByBaseline(Signature now, Signature well) => ByBaseline(BySite(now), BySite(well));

    /// <summary>The same of two records that each were compared with their site.</summary>
    public static Comparison ByBaseline(Comparison now, Comparison well)
    {
        var worse = new Dictionary<Covariate, double>(now.Circumstances);
        Take(Covariate.Sampling, Math.Min);
        Take(Covariate.Noise, Math.Max);
        return new Comparison(Changes(now.Features, well.Features), Changes(now.Covariates, well.Covariates), worse);

        void Take(Covariate covariate, Func<double, double, double> choose)
        {
            if (now.Circumstances.TryGetValue(covariate, out double one) && well.Circumstances.TryGetValue(covariate, out double other))
            {
                worse[covariate] = choose(one, other);
            }
        }
    }

    private static Dictionary<T, double> Changes<T>(IReadOnlyDictionary<T, double> now, IReadOnlyDictionary<T, double> before)
        where T : notnull => now.Where(s => before.ContainsKey(s.Key)).ToDictionary(s => s.Key, s => s.Value - before[s.Key]);
}
