namespace Clackbeat.Signal.Figures;

/// <summary>A stretch without samples.</summary>
/// <param name="StartS">Last sample before it [s].</param>
/// <param name="LengthS">Length [s].</param>
public readonly record struct Gap(double StartS, double LengthS);
