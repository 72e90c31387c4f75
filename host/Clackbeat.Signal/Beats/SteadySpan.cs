namespace Clackbeat.Signal.Beats;

/// <summary>The part of a record in which the ram beats steadily, in the record's own time.</summary>
/// <param name="FromS">Its first closure [s].</param>
/// <param name="UntilS">End of its last beat [s].</param>
/// <param name="Beats">Its whole beats.</param>
public sealed record SteadySpan(double FromS, double UntilS, int Beats);
