using System.CommandLine;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Wishes;

namespace Clackbeat.Commands.Plan;

/// <summary>The options that say what water is needed for.</summary>
internal sealed class NeedOptions
{
    private readonly Option<string>[] _options =
    [
        PlanOptions.Text(WishFields.Need, "FLOW", "Water needed all year, such as \"3000 L/day\""),
        PlanOptions.Text(WishFields.NeedMonths, "FLOWS", "Water needed in each month, January first, on top of the rest"),
        PlanOptions.Text(WishFields.Irrigate, "M2=MM", "Square metres to water, and millimetres a day in each month: \"400 = 0, 0, 1, 2, 4, 5, 5, 4, 3, 1, 0, 0\""),
        PlanOptions.Text(WishFields.Shortfall, "SHARE", "Share of the year's need that may stay unmet when the tank is sized; 2 % if left out"),
    ];

    private readonly Option<string[]> _use = new($"--{WishFields.Use}")
    {
        HelpName = "WHO=NUMBER",
        Description = $"People or animals to be supplied, on top of the rest; repeatable. Known: {string.Join(", ", NeedRate.All.Select(r => r.Item))}",
    };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option<string> option in _options)
        {
            command.Add(option);
        }

        command.Add(_use);
    }

    /// <summary>What was written in a field.</summary>
    public IReadOnlyList<string> Written(ParseResult line, string field) => field == WishFields.Use
        ? line.GetValue(_use) ?? []
        : Array.Find(_options, o => o.Name == $"--{field}") is { } option ? PlanOptions.Written(line, option) : [];

    /// <summary>Water needed in each month [m³/s], empty where none is, the share that may stay unmet, and the people and animals.</summary>
    /// <exception cref="Site.InputException">An option can't be read.</exception>
    public (IReadOnlyList<double> M3PerS, double Shortfall, IReadOnlyList<NeedUse> Uses) Read(ParseResult line) => PlanOptions.Told(() =>
    {
        var need = new NeedReader(field => Written(line, field));
        return (need.Read(), need.Shortfall(), need.Uses());
    });
}
