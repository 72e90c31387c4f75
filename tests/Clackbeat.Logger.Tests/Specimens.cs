namespace Clackbeat.Logger.Tests;

/// <summary>One of each thing that compiles for the microcontroller and fails on it.</summary>
internal static class Specimens
{
    internal interface IWithDefault
    {
        int Two() => 2;
    }

    internal sealed class GenericType<T>
    {
        public T? Value { get; set; }
    }

    internal static class GenericMethod
    {
        public static T Same<T>(T value) => value;
    }

    internal static class CallsGeneric
    {
        public static int One() => GenericMethod.Same(1);
    }

    internal static class Grid
    {
        public static int Corner(int size)
        {
            int[,] grid = new int[size, size];
            return grid[0, 0];
        }
    }

    internal static unsafe class Stack
    {
        public static int First(int size)
        {
            int* values = stackalloc int[size];
            return values[0];
        }
    }

    internal static unsafe class Pinned
    {
        public static int First(int[] values)
        {
            fixed (int* first = values)
            {
                return *first;
            }
        }
    }
}
