using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Alone;

/// <summary>
/// How long and how often a lone logger records, as a host or whoever had the card in a computer wished (SPEC §10). It stands in a
/// file on the card, so it outlives sleep and loss of power, and the build's own settings apply where there is none.
/// </summary>
public sealed class LoneSchedule
{
    private readonly IBurstStorage _storage;
    private readonly LoggerSettings _settings;
    private readonly StateFrame _file;
    private readonly SetSchedule _kept = new();

    /// <summary>Makes a schedule that changes some settings.</summary>
    public LoneSchedule(IBurstStorage storage, LoggerSettings settings)
    {
        _storage = storage;
        _settings = settings;
        _file = new StateFrame(storage);
    }

    /// <summary>Takes over what the card keeps; a file that is damaged or out of range changes nothing.</summary>
    public void Load()
    {
        if (_file.TryRead(BurstNames.ScheduleSlot, _kept) && _kept.IsInRange)
        {
            Apply(_kept);
        }
    }

    /// <summary>Takes over what a host asks for and keeps it on the card; the result is one of the protocol's.</summary>
    public int SetSchedule(SetSchedule wish)
    {
        if (!wish.IsInRange)
        {
            return Results.OutOfRange;
        }

        if (!_settings.WorksAlone || !_storage.Open() || !_file.Write(BurstNames.ScheduleSlot, wish))
        {
            return Results.NotNow;
        }

        Apply(wish);
        return Results.Done;
    }

    private void Apply(SetSchedule schedule)
    {
        _settings.BurstLengthMilliseconds = (int)schedule.LengthMilliseconds;
        _settings.BurstIntervalMilliseconds = (int)schedule.IntervalMilliseconds;
    }
}
