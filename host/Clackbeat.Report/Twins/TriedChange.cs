using Clackbeat.Hydraulics.Rating;
using Clackbeat.Twin.Changes;

namespace Clackbeat.Report.Twins;

/// <summary>A change that was tried on a twin, as a page tells it.</summary>
/// <param name="Setting">The setting as a person writes it; empty where several things are changed at once.</param>
/// <param name="At">Where it stands along a range, in the range's unit.</param>
/// <param name="Ram">What the ram does then.</param>
/// <param name="Pipe">Its drive pipe against the rating then.</param>
public sealed record TriedChange(string Setting, double At, Prediction Ram, PipeVerdict Pipe);

/// <summary>The axis of a range of settings.</summary>
/// <param name="Unit">Unit of its numbers; empty for a change in per cent.</param>
/// <param name="Now">Where the ram stands now.</param>
public sealed record SettingAxis(string Unit, double Now);
