using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;
using Clackbeat.Twin.Changes;

namespace Clackbeat.Tuning.Twins;

/// <summary>Which change of a twin the turning of a knob is.</summary>
internal static class KnobChange
{
    private const string Stroke = "stroke";
    private const string Weight = "weight";

    // Beyond these a record says little of the ram, as in what-if.
    private const double LeastFactor = 0.1;
    private const double MostFactor = 5;

    /// <summary>The change from one setting to another; null where a twin has no such knob.</summary>
    /// <remarks>
    /// A stroke counts in proportion. A weight is often only what was added, so its change counts over the mass that the site file gives.
    /// </remarks>
    /// <param name="site">The site.</param>
    /// <param name="knob">What is turned.</param>
    /// <param name="from">Setting where the twin was fitted, in the knob's unit.</param>
    internal static Func<double, RamChange>? Of(RamSite site, Knob knob, double from)
    {
        if (Is(knob, Stroke) && from > 0 && (knob.Unit == "%" || QuantityText.IsUnit(QuantityKind.Length, knob.Unit)))
        {
            return to => new RamChange { Stroke = Math.Clamp(to / from, LeastFactor, MostFactor) };
        }

        if (Is(knob, Weight) && site.WasteValve.MassKg is { } massKg && massKg > 0 && QuantityText.IsUnit(QuantityKind.Mass, knob.Unit))
        {
            LinearUnit unit = QuantityText.Unit(QuantityKind.Mass, knob.Unit);
            return to => new RamChange { Weight = Math.Clamp(1 + ((unit.ToSi(to) - unit.ToSi(from)) / massKg), LeastFactor, MostFactor) };
        }

        return null;
    }

    private static bool Is(Knob knob, string name) => knob.Name.Equals(name, StringComparison.OrdinalIgnoreCase);
}
