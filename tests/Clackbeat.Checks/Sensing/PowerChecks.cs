using Clackbeat.Sensing.Power;

namespace Clackbeat.Checks.Sensing;

/// <summary>Battery and sun, against hand calculation and published examples.</summary>
public class PowerChecks
{
    // FAO Irrigation and Drainage Paper 56, example 8: 20° south on 3 September (day 246), 32.2 MJ/(m² d).
    [Fact]
    public void Sunshine_outside_the_air_is_that_of_the_published_example() =>
        Assert.Equal(32.2, Sun.OutsideMJ(-20, 246), 0.05);

    // The same paper, example 10: Rio de Janeiro, 22.9° south, 15 May, 25.1 MJ outside, 7.1 of 10.9 hours of sun: 14.5 MJ.
    [Fact]
    public void Sunshine_at_the_ground_is_that_of_the_published_example() =>
        Assert.Equal(14.5 / 3.6, Sun.HoursOfFullSun(-22.9, 135, 7.1 / 10.9), 0.05);

    // By hand, 12.8 V less 0.4 V in D5, 85 %, U2 at 5.2 V, 0.1 mA idle, divider of 120 kΩ (0.107 mA). Awake (80 + 10.2 mA) × 5.2/(12.4 × 0.85)
    // = 44.50 mA, with the rest 44.71 mA. Asleep 1 mA: 0.493 + 0.207 = 0.700 mA; with the sensor left on 11.2 mA: 5.526 + 0.207 = 5.732 mA.
    [Fact]
    public void The_battery_feeds_what_its_parts_add_up_to()
    {
        PowerParts parts = new()
        {
            BatteryV = 12.8,
            ConverterEfficiency = 0.85,
            ConverterIdleA = 0.1e-3,
            BoardAwakeA = 80e-3,
            BoardAsleepA = 1e-3,
            SensorA = 10.2e-3,
            SensorIsSwitched = true,
            BatteryDividerOhm = 120e3,
        };
        Assert.Equal(44.71e-3, parts.AwakeA, 0.01e-3);
        Assert.Equal(0.700e-3, parts.AsleepA, 0.001e-3);
        Assert.Equal(5.732e-3, (parts with { SensorIsSwitched = false }).AsleepA, 0.005e-3);
    }

    // A loop draws from the battery itself: 12 mA on the average between 4 and 20.
    [Fact]
    public void A_loop_is_not_fed_through_the_converter()
    {
        PowerParts loop = new()
        {
            BatteryV = 12.8,
            ConverterEfficiency = 0.85,
            ConverterIdleA = 0,
            BoardAwakeA = 0,
            BoardAsleepA = 0,
            LoopA = 12e-3,
            SensorIsSwitched = true,
            BatteryDividerOhm = double.PositiveInfinity,
        };
        Assert.Equal(12e-3, loop.AwakeA, 1e-12);
        Assert.Equal(0, loop.AsleepA, 1e-12);
    }
}
