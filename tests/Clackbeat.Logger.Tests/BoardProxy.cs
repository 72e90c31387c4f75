using System.Reflection;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// A board for a core loaded from the device build, whose interface type is known only then. Its clock steps so that
/// the core hardly spins: what is counted is work.
/// </summary>
public class BoardProxy : DispatchProxy
{
    private const int SpinsBeforeNextPoint = 4;
    private long _now = 1_000_000;
    private int _spins;
    private byte[] _command = [];

    /// <summary>Work done at each conversion of the pressure: instructions, calls, clock readings since the start.</summary>
    public List<(long Instructions, long Calls, long Clock, long Conversions)> AtSample { get; } = new(20_000);

    public int SamplesWanted { get; set; }

    private long ClockReads { get; set; }

    private long Conversions { get; set; }

    public static object Make(Type board, int samples, byte[] command)
    {
        object made = Create(board, typeof(BoardProxy));
        ((BoardProxy)made).SamplesWanted = samples;
        ((BoardProxy)made)._command = command;
        return made;
    }

    protected override object? Invoke(MethodInfo? targetMethod, object?[]? args) => targetMethod!.Name switch
    {
        "NowMicroseconds" => Now(),
        "ReadConverter" => Convert((int)args![0]!),
        "Receive" => Receive((byte[])args![0]!),
        "get_FreeMemoryBytes" => 90_000u,
        "get_WakeCause" => 0,
        "CalendarMilliseconds" => 0L,
        "get_CalendarUncertaintyMilliseconds" => 0L,
        "SetCalendar" => false,
        _ => null,
    };

    private long Now()
    {
        ClockReads++;
        _spins++;
        if (_spins >= SpinsBeforeNextPoint)
        {
            _spins = 0;
            _now += 1000;
        }

        return _now;
    }

    private int Convert(int channel)
    {
        Conversions++;
        if (channel == 0)
        {
            if (AtSample.Count == SamplesWanted)
            {
                throw new InvalidOperationException("enough");
            }

            AtSample.Add((WorkMeter.Instructions, WorkMeter.Calls, ClockReads, Conversions));
            _spins = 0;
            _now += 1000;
        }

        return 1234;
    }

    private int Receive(byte[] buffer)
    {
        int count = _command.Length;
        _command.CopyTo(buffer, 0);
        _command = [];
        return count;
    }
}
