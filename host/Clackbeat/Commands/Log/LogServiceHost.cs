using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;

namespace Clackbeat.Commands.Log;

/// <summary>
/// Tells the system's service manager how the program does: ready and stopping by the hosting library, and on systemd that it
/// lives (sd_notify(3), WATCHDOG=1), but only while every ram's loop does. In a terminal nobody listens and nothing is told.
/// </summary>
internal sealed class LogServiceHost : IDisposable
{
    // A burst's summing up may take a while on a small computer; a loop that is quiet for longer hangs.
    private static readonly TimeSpan LongestQuiet = TimeSpan.FromMinutes(3);

    private readonly IHost _host;
    private readonly CancellationTokenSource _stopping;
    private readonly Timer? _alive;

    /// <summary>Starts telling.</summary>
    /// <param name="quietFor">For how long the quietest part of the program has shown no sign of life.</param>
    /// <param name="stop">Set when the user asks the program to end.</param>
    public LogServiceHost(Func<TimeSpan> quietFor, CancellationToken stop)
    {
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings { DisableDefaults = true });
        builder.Logging.ClearProviders();
        builder.Services.AddSystemd();
        builder.Services.AddWindowsService(options => options.ServiceName = "Clackbeat");
        if (!SystemdHelpers.IsSystemdService() && !Microsoft.Extensions.Hosting.WindowsServices.WindowsServiceHelpers.IsWindowsService())
        {
            // The program's own handling of Ctrl-C stands; the library's would end the process under a burst.
            builder.Services.AddSingleton<IHostLifetime, NoLifetime>();
        }

        _host = builder.Build();
        _host.Start();
        IHostApplicationLifetime lifetime = _host.Services.GetRequiredService<IHostApplicationLifetime>();
        _stopping = CancellationTokenSource.CreateLinkedTokenSource(stop, lifetime.ApplicationStopping);
        if (WatchdogPeriod() is { } period && _host.Services.GetService<ISystemdNotifier>() is { IsEnabled: true } notifier)
        {
            _alive = new Timer(
                _ =>
                {
                    if (quietFor() < LongestQuiet)
                    {
                        notifier.Notify(new ServiceState("WATCHDOG=1"));
                    }
                },
                null,
                TimeSpan.Zero,
                period / 2);
        }
    }

    /// <summary>Set when the user, the system or its service manager asks the program to end.</summary>
    public CancellationToken Stopping => _stopping.Token;

    /// <inheritdoc/>
    public void Dispose()
    {
        _alive?.Dispose();
        _host.StopAsync().GetAwaiter().GetResult();
        _host.Dispose();
        _stopping.Dispose();
    }

    // systemd names the time after which it takes a service that is silent for hung.
    private static TimeSpan? WatchdogPeriod() =>
        long.TryParse(Environment.GetEnvironmentVariable("WATCHDOG_USEC"), CultureInfo.InvariantCulture, out long us) && us > 0
            ? TimeSpan.FromMicroseconds(us)
            : null;

    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
