using System.Diagnostics;
using System.Globalization;
using Clackbeat.Season.Store;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>Writers as processes of their own, killed at random if asked, and the count of what they were told is stored.</summary>
internal sealed class WriterHerd(string store, ManyRamsPlan plan)
{
    private readonly int[] _told = [.. Enumerable.Repeat(-1, plan.Writers)];
    private int _kills;
    private int _crashes;

    /// <summary>Writes until the time is over.</summary>
    public void Run()
    {
        long began = Stopwatch.GetTimestamp();
        using var over = new CancellationTokenSource(TimeSpan.FromSeconds(plan.WriteS));
        var crashing = Task.Run(() => Crash(over.Token));
        Parallel.For(0, plan.Writers, new ParallelOptions { MaxDegreeOfParallelism = plan.Writers }, w => RunOne(w, over.Token));
        crashing.Wait();
        double tookS = Stopwatch.GetElapsedTime(began).TotalSeconds;
        int all = _told.Sum() + plan.Writers;
        ManyRams.Say($"{plan.Writers} writers, {plan.ABatch} bursts a transaction: {all} bursts in {tookS:0} s, {all / tookS:0} a second (load {ManyRams.Load()})");
    }

    /// <summary>Compares the store with what it said.</summary>
    public void Count(ISeasonStore open)
    {
        (int lost, int beyond) = (0, 0);
        for (int w = 0; w < plan.Writers; w++)
        {
            IReadOnlyList<BurstState> stored = open.States(NameOf(w), TimeSpanUtc.All);
            int distinct = stored.Select(s => s.AtUtc).Distinct().Count();
            lost += Math.Max(0, _told[w] + 1 - distinct);
            beyond += stored.Count - distinct;
        }

        ManyRams.Say($"{_kills} kills of a writer, {_crashes} of the server: {lost} bursts lost, {beyond} twice");
    }

    /// <summary>A writer: stores batch after batch and says the last number of each, until its input ends.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">Its ram.</param>
    /// <param name="first">Number of its first burst.</param>
    /// <param name="batch">Bursts a transaction.</param>
    public static void Write(string store, string ram, int first, int batch)
    {
        Task<string?> told = Task.Run(Console.In.ReadLine);
        ISeasonStore? open = null;
        for (int number = first; !told.IsCompleted;)
        {
            try
            {
                open ??= SeasonStores.Open(store, create: true);
                open.Add([.. Enumerable.Range(number, batch).Select(n => HistoryMaker.Burst(ram, n))]);
                number += batch;
                Console.Out.WriteLine(number - 1);
                Console.Out.Flush();
            }
            catch (StoreUnreachableException)
            {
                // The server is away: the same again, a little later.
                Thread.Sleep(200);
            }
        }

        open?.Dispose();
    }

    private static string NameOf(int writer) => $"written {writer:00} {Environment.ProcessId}";

    private void RunOne(int w, CancellationToken over)
    {
        var chance = new Random(w);
        while (!over.IsCancellationRequested)
        {
            string host = Environment.ProcessPath!.EndsWith("dotnet", StringComparison.Ordinal) ? Environment.ProcessPath : "dotnet";
            using Process process = Process.Start(new ProcessStartInfo(
                host, [typeof(WriterHerd).Assembly.Location, "writer", store, NameOf(w), (_told[w] + 1).ToString(CultureInfo.InvariantCulture), plan.ABatch.ToString(CultureInfo.InvariantCulture)])
            {
                RedirectStandardOutput = true,
                RedirectStandardInput = true,
            })!;
            var listening = Task.Run(() => Listen(process, w), CancellationToken.None);

            // Each lives for as long as lets one of all be killed every so often.
            double lifeS = plan.KillEveryS > 0 ? 2 * chance.NextDouble() * plan.KillEveryS * plan.Writers : double.MaxValue;
            bool isOver = over.WaitHandle.WaitOne(TimeSpan.FromSeconds(Math.Min(lifeS, plan.WriteS + 1.0)));
            if (isOver)
            {
                process.StandardInput.Close();
            }
            else
            {
                process.Kill();
                Interlocked.Increment(ref _kills);
            }

            process.WaitForExit();
            listening.Wait(CancellationToken.None);
        }
    }

    private void Listen(Process process, int w)
    {
        while (process.StandardOutput.ReadLine() is { } line)
        {
            if (int.TryParse(line, CultureInfo.InvariantCulture, out int number))
            {
                _told[w] = number;
            }
        }
    }

    private void Crash(CancellationToken over)
    {
        while (plan.Crash.Length > 0 && !over.WaitHandle.WaitOne(TimeSpan.FromSeconds(plan.WriteS / 4.0)))
        {
            using Process process = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", plan.Crash]) { RedirectStandardOutput = true })!;
            process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            _crashes++;
        }
    }
}
