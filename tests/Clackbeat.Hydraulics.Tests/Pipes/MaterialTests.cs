using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Tests.Pipes;

public class MaterialTests
{
    [Fact]
    public void Every_material_but_Other_has_its_properties_and_their_source()
    {
        foreach (PipeMaterial material in Enum.GetValues<PipeMaterial>().Where(m => m != PipeMaterial.Other))
        {
            var properties = MaterialProperties.TryGet(material);
            Assert.NotNull(properties);
            Assert.InRange(properties.YoungPa, properties.YoungLowPa, properties.YoungHighPa);
            Assert.InRange(properties.PoissonRatio, 0.2, 0.5);
            Assert.NotEqual("", properties.Source);
        }

        Assert.Null(MaterialProperties.TryGet(PipeMaterial.Other));
    }
}
