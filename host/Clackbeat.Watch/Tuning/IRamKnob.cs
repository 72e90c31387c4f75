namespace Clackbeat.Watch.Tuning;

/// <summary>A setting of a ram that the program itself can turn, since the ram exists only in the computer.</summary>
public interface IRamKnob
{
    /// <summary>What can be turned.</summary>
    IReadOnlyList<KnobHint> Hints { get; }

    /// <summary>Turns it. The ram stops and is started again, as by a keeper.</summary>
    /// <param name="name">Which, by its hint's name.</param>
    /// <param name="settingSi">To what [m, kg].</param>
    void Turn(string name, double settingSi);
}

/// <summary>What can be turned, and how it stands.</summary>
/// <param name="Name">Name, such as "stroke".</param>
/// <param name="Now">How it stands now [m, kg].</param>
/// <param name="Lowest">A sensible lower end [m, kg].</param>
/// <param name="Highest">A sensible upper end [m, kg].</param>
public sealed record KnobHint(string Name, double Now, double Lowest, double Highest);
