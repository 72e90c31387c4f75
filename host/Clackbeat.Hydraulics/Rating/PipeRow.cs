using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using nietras.SeparatedValues;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Reads a row of Data/pipes.csv, each in the units of its own standard.</summary>
internal static class PipeRow
{
    internal static CataloguePipe Read(SepReader.Row row)
    {
        double unitM = row["unit"].ToString() == "in" ? 0.0254 : 1e-3;
        double unitPa = row["rating_unit"].ToString() == "psi" ? Constants.PsiPa : 1e5;
        return new CataloguePipe
        {
            Material = Enum.Parse<PipeMaterial>(row["material"].Span),
            Series = row["series"].ToString(),
            Class = row["class"].ToString(),
            Size = row["size"].ToString(),
            OutsideDiameterM = row["od"].TryParse<double>() * unitM,
            WallM = row["wall"].TryParse<double>() * unitM,
            DimensionRatio = row["dimension_ratio"].TryParse<double>(),
            Diameters = new Band(
                (row["od_from_mm"].TryParse<double>() ?? 0) * 1e-3,
                (row["od_to_mm"].TryParse<double>() ?? double.PositiveInfinity) * 1e-3),
            RatedPa = row["rating"].TryParse<double>() * unitPa,
            Source = row["source"].ToString(),
            IsUnconfirmed = row["unconfirmed"].ToString() == "yes",
        };
    }
}
