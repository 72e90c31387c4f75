using System.Runtime.ExceptionServices;

namespace Clackbeat.Twin.Model;

/// <summary>Runs that don't depend on each other, on as many processors as there are. The results stand in order, so they are the same on any number.</summary>
internal static class SideBySide
{
    /// <summary>Makes each result.</summary>
    /// <param name="count">How many.</param>
    /// <param name="make">Makes one by its number; called from several threads.</param>
    /// <param name="stop">Ends the work early.</param>
    public static T[] Of<T>(int count, Func<int, T> make, CancellationToken stop = default)
    {
        var all = new T[count];
        try
        {
            Parallel.For(0, count, new ParallelOptions { CancellationToken = stop }, i => all[i] = make(i));
        }
        catch (AggregateException failures)
        {
            // Who asked for the results knows the failure by its own kind.
            ExceptionDispatchInfo.Throw(failures.InnerExceptions[0]);
        }

        return all;
    }
}
