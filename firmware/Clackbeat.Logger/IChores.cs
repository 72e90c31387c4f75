namespace Clackbeat.Logger;

/// <summary>Small work that is done between two samples.</summary>
public interface IChores
{
    /// <summary>Does one small part of what there is to do; true when more of it waits.</summary>
    bool Step(long nowMicroseconds);
}
