namespace Clackbeat.Site.Facts;

/// <summary>A value that each reader sees in their own units.</summary>
public interface IShown
{
    /// <summary>The value in SI; of a range the lower end.</summary>
    double Value { get; }
}
