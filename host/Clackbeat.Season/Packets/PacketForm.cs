namespace Clackbeat.Season.Packets;

/// <summary>A packet as JSON has it; nothing in it is checked yet.</summary>
internal sealed record PacketForm
{
    public const string Name = "clackbeat.packet/1";

    public string? Schema { get; init; }

    public IReadOnlyList<BurstForm?>? Bursts { get; init; }

    public IReadOnlyList<MarkForm?>? Marks { get; init; }
}

internal sealed record BurstForm
{
    public string? Ram { get; init; }

    public string? Hash { get; init; }

    public string? Source { get; init; }

    public DateTimeOffset? Start { get; init; }

    public double? StartUncertaintyS { get; init; }

    public double? DurationS { get; init; }

    public string? State { get; init; }

    public string? Completeness { get; init; }

    public IReadOnlyDictionary<string, FigureForm?>? Figures { get; init; }

    public IReadOnlyDictionary<string, double>? Conditions { get; init; }

    public byte[]? Beats { get; init; }
}

internal sealed record FigureForm(double? Value, double? U, string? Bound);

internal sealed record MarkForm(string? Ram, DateTimeOffset? At, string? Words);
