using Clackbeat.Records.Samples;

namespace Clackbeat.Records.Export;

/// <summary>A file of samples that other programs read.</summary>
public interface IExportFile : IDisposable
{
    /// <summary>Writes a row.</summary>
    /// <param name="row">The sample.</param>
    /// <param name="gapS">Time without samples right before it [s]; null for none.</param>
    void Add(in Sample row, double? gapS);

    /// <summary>Writes what is left.</summary>
    void Finish();
}
