using System;
using Clackbeat.Logger.Board;

namespace Clackbeat.Logger.Clock;

/// <summary>
/// A battery-backed clock chip with a crystal that is corrected for temperature: DS3231 (Maxim 19-5170 Rev 10). It carries
/// the calendar through deep sleep, when it was set, and how well it was told.
/// </summary>
/// <remarks>
/// When it was set stands in the registers of the two alarms, which nobody uses: seven bytes that the chip's battery keeps.
/// </remarks>
public sealed class ClockChip
{
    // Registers (data sheet, figure 1).
    private const int Seconds = 0x00;
    private const int AlarmBytes = 0x07;
    private const int Control = 0x0E;
    private const int Status = 0x0F;
    private const int TemperatureHigh = 0x11;

    // Status: the oscillator has stopped since this bit was cleared, so the time is wrong. Control: both alarms off, and
    // the oscillator runs on the battery.
    private const int OscillatorStopped = 0x80;
    private const int AlarmsOff = 0x04;

    private const int TimeLength = 7;
    private const int HourTwelve = 0x40;
    private const int HourAfternoon = 0x20;
    private const int NextCentury = 0x80;

    // What the chip keeps of its setting begins with this, so that bytes of chance aren't taken for it.
    private const byte Mark = 0xC3;

    // From 0 to 40 °C within 2 parts per million, else within 3.5 (data sheet, features). Winters are counted with.
    private const long DriftPerBillion = 3500;

    private const long MillisecondsPerHour = 3_600_000;
    private const int SecondsPerDay = 86_400;

    private readonly IRegisterBus _bus;
    private readonly byte[] _registers = new byte[TimeLength];

    /// <summary>Makes it over the chip's bus.</summary>
    public ClockChip(IRegisterBus bus)
    {
        _bus = bus;
    }

    /// <summary>Calendar as last read [ms since 1970-01-01 UTC]; 0 when the chip is missing or was never set.</summary>
    public long CalendarMilliseconds { get; private set; }

    /// <summary>How far that may be off [ms]: as it was told, and the crystal since.</summary>
    public long UncertaintyMilliseconds { get; private set; }

    /// <summary>When it was set, to the hour [ms since 1970-01-01 UTC].</summary>
    public long SetMilliseconds { get; private set; }

    /// <summary>Temperature of the chip [°C × 4]; false when it can't be read.</summary>
    public bool TryReadTemperature(out int quarterDegrees)
    {
        quarterDegrees = 0;
        try
        {
            _bus.Read(TemperatureHigh, _registers, 2);
            quarterDegrees = ((sbyte)_registers[0] * 4) + (_registers[1] >> 6);
            return true;
        }
        catch (Exception)
        {
            return false;
        }
    }

    /// <summary>Reads calendar and uncertainty; false when the chip is missing, stopped or was never set.</summary>
    public bool TryRead()
    {
        CalendarMilliseconds = 0;
        try
        {
            _bus.Read(Status, _registers, 1);
            if ((_registers[0] & OscillatorStopped) != 0)
            {
                return false;
            }

            _bus.Read(AlarmBytes, _registers, TimeLength);
            if (_registers[0] != Mark || _registers[6] != SumOf(_registers))
            {
                return false;
            }

            SetMilliseconds = (((long)_registers[1] << 16) | (long)(_registers[2] << 8) | _registers[3]) * MillisecondsPerHour;
            long told = (_registers[4] << 8) | _registers[5];
            _bus.Read(Seconds, _registers, TimeLength);
            long now = MillisecondsOf(_registers);
            long since = now > SetMilliseconds ? now - SetMilliseconds : 0;

            // The seconds register tells whole seconds; one was being counted.
            UncertaintyMilliseconds = (told * 100) + 1000 + (since / 1000 * DriftPerBillion / 1_000_000);
            CalendarMilliseconds = now;
            return now > 0;
        }
        catch (Exception)
        {
            return false;
        }
    }

    /// <summary>Sets the calendar; false when the chip can't be written.</summary>
    /// <param name="milliseconds">Calendar [ms since 1970-01-01 UTC].</param>
    /// <param name="uncertaintyMilliseconds">How far that may be off [ms].</param>
    public bool TrySet(long milliseconds, long uncertaintyMilliseconds)
    {
        try
        {
            RegistersOf(milliseconds, _registers);
            _bus.Write(Seconds, _registers, TimeLength);
            long hours = milliseconds / MillisecondsPerHour;
            long told = (uncertaintyMilliseconds + 99) / 100;
            told = told > 0xFFFF ? 0xFFFF : told;
            _registers[0] = Mark;
            _registers[1] = (byte)(hours >> 16);
            _registers[2] = (byte)(hours >> 8);
            _registers[3] = (byte)hours;
            _registers[4] = (byte)(told >> 8);
            _registers[5] = (byte)told;
            _registers[6] = SumOf(_registers);
            _bus.Write(AlarmBytes, _registers, TimeLength);
            _registers[0] = AlarmsOff;
            _registers[1] = 0;
            _bus.Write(Control, _registers, 2);
            return TryRead();
        }
        catch (Exception)
        {
            return false;
        }
    }

    /// <summary>The seven time registers of a calendar time (data sheet, figure 1), in 24-hour mode.</summary>
    public static void RegistersOf(long milliseconds, byte[] registers)
    {
        long seconds = milliseconds / 1000;
        int days = (int)(seconds / SecondsPerDay);
        int left = (int)(seconds % SecondsPerDay);
        int year = 1970;
        while (days >= DaysIn(year))
        {
            days -= DaysIn(year);
            year++;
        }

        int month = 1;
        while (days >= DaysIn(year, month))
        {
            days -= DaysIn(year, month);
            month++;
        }

        registers[0] = Coded(left % 60);
        registers[1] = Coded(left / 60 % 60);
        registers[2] = Coded(left / 3600);

        // 1970-01-01 was a Thursday; the chip counts days from any day on, here Monday as 1.
        registers[3] = (byte)((((seconds / SecondsPerDay) + 3) % 7) + 1);
        registers[4] = Coded(days + 1);
        registers[5] = (byte)(Coded(month) | (year >= 2100 ? NextCentury : 0));
        registers[6] = Coded(year % 100);
    }

    /// <summary>Calendar time of seven time registers [ms since 1970-01-01 UTC], in either hour mode.</summary>
    public static long MillisecondsOf(byte[] registers)
    {
        int hour = registers[2];
        if ((hour & HourTwelve) != 0)
        {
            int twelve = Plain(hour & 0x1F) % 12;
            hour = (hour & HourAfternoon) != 0 ? twelve + 12 : twelve;
        }
        else
        {
            hour = Plain(hour & 0x3F);
        }

        int year = 2000 + Plain(registers[6]) + ((registers[5] & NextCentury) != 0 ? 100 : 0);
        int month = Plain(registers[5] & 0x1F);
        long days = Plain(registers[4] & 0x3F) - 1;
        for (int y = 1970; y < year; y++)
        {
            days += DaysIn(y);
        }

        for (int m = 1; m < month; m++)
        {
            days += DaysIn(year, m);
        }

        long seconds = (days * SecondsPerDay) + (hour * 3600) + (Plain(registers[1] & 0x7F) * 60) + Plain(registers[0] & 0x7F);
        return seconds * 1000;
    }

    private static byte SumOf(byte[] registers)
    {
        int sum = 0;
        for (int i = 0; i < TimeLength - 1; i++)
        {
            sum += registers[i];
        }

        return (byte)sum;
    }

    private static bool IsLeap(int year) => (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

    private static int DaysIn(int year) => IsLeap(year) ? 366 : 365;

    private static int DaysIn(int year, int month) =>
        month == 2 ? (IsLeap(year) ? 29 : 28) : month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;

    // Two decimal digits in a byte, four bits each.
    private static byte Coded(int value) => (byte)((value / 10 << 4) | (value % 10));

    private static int Plain(int coded) => ((coded >> 4) * 10) + (coded & 0x0F);
}
