using System.Security.Cryptography;
using System.Text;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Npgsql;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>Makes years of bursts: in a file burst by burst, on a server by the server itself, since millions would take hours to send.</summary>
internal static class HistoryMaker
{
    private const int SpacingS = 21_600;
    private const int RamsAtOnce = 10;
    private static readonly DateTimeOffset First = new(2021, 5, 1, 0, 0, 0, TimeSpan.Zero);

    // On a server a burst of the history has these figures only; those of the writers have all.
    private static readonly SeasonFigure[] Kept = [SeasonFigure.Delivered, SeasonFigure.Rate, SeasonFigure.Efficiency, SeasonFigure.PeakMax, SeasonFigure.RatingUse];

    public static string NameOf(int number) => $"ram {number:0000}";

    public static void Fill(string name, ISeasonStore store, int rams, int bursts)
    {
        if (SeasonStores.IsServer(name))
        {
            FillServer(name, rams, bursts);
            return;
        }

        for (int ram = 1; ram <= rams; ram++)
        {
            foreach (int[] batch in Enumerable.Range(0, bursts).Chunk(500))
            {
                store.Add([.. batch.Select(n => Burst(NameOf(ram), n))]);
            }
        }
    }

    /// <summary>A burst with every figure, three conditions and sixty beats.</summary>
    public static SeasonBurst Burst(string ram, int number)
    {
        byte[] hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{ram} {number}"));
        double wave = 1 + (0.1 * Math.Sin(number / 232.0)) + (0.0002 * hash[0]);
        return new SeasonBurst
        {
            Ram = ram,
            SourceHash = hash,
            Source = $"{number / 4:00000}/{number:000000}.cbrec",
            StartUtc = First.AddSeconds((double)number * SpacingS),
            DurationS = 60,
            State = RamState.Beating,
            Figures = Enum.GetValues<SeasonFigure>().ToDictionary(f => f, f => new SeasonValue(wave * Usual(f), 0.02 * Usual(f))),
            Conditions = new Dictionary<string, double> { ["healthy"] = 0.9, ["waste-valve-sticking"] = 0.06, ["air-in-drive-pipe"] = 0.04 },
            Beats =
            [
                .. Enumerable.Range(0, 60).Select(i => new SeasonBeat(
                    i + (0.001 * hash[i % 32]), 1 + (0.001 * hash[(i + 1) % 32]), 4e5 + (100 * hash[i % 32]), 2e5 + (100 * hash[(i + 2) % 32]), -3e4, new BeatFlow(1.2, 1e-4, 2e-4))),
            ],
        };
    }

    private static double Usual(SeasonFigure figure) => figure switch
    {
        SeasonFigure.Rate => 55,
        SeasonFigure.Delivered or SeasonFigure.Waste or SeasonFigure.Drawn => 1e-4,
        SeasonFigure.Efficiency or SeasonFigure.Rankine or SeasonFigure.DriveSide or SeasonFigure.RatingUse => 0.5,
        _ => 1e5,
    };

    private static void FillServer(string name, int rams, int bursts)
    {
        using var connection = new NpgsqlConnection(name + ";Search Path=clackbeat;Command Timeout=0;Pooling=false");
        connection.Open();
        void Run(FormattableString sql, params object[] values)
        {
            using var command = new NpgsqlCommand(FormattableString.Invariant(sql), connection);
            foreach (object value in values)
            {
                command.Parameters.Add(new NpgsqlParameter { Value = value });
            }

            command.ExecuteNonQuery();
        }

        Run($"SET synchronous_commit = off");
        Run($"INSERT INTO ram (name) SELECT 'ram ' || to_char(n, 'FM0000') FROM generate_series(1, {rams}) n");
        byte[] packed = BeatPack.Pack(Burst("x", 1).Beats);
        string kinds = string.Join(", ", Kept.Select(k => $"'{k.Code()}'"));
        long firstUs = (First - DateTimeOffset.UnixEpoch).Ticks / TimeSpan.TicksPerMicrosecond;
        for (int from = 0; from < rams; from += RamsAtOnce)
        {
            Run(
                $"""
                WITH made AS (
                    INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness)
                    SELECT r.id, sha256(int8send(r.id) || int8send(n)), 'history/' || n, {firstUs} + n * {SpacingS}000000::bigint, 60000000, 'beating', 60, 'complete'
                    FROM (SELECT id FROM ram ORDER BY id OFFSET {from} LIMIT {RamsAtOnce}) r, generate_series(0, {bursts - 1}) n RETURNING id, ram, start_us),
                judged AS (INSERT INTO condition (burst, code, probability) SELECT id, 'healthy', 0.9 FROM made),
                packed AS (INSERT INTO beats (burst, packed) SELECT id, $1 FROM made)
                INSERT INTO figure (ram, kind, start_us, burst, value, u)
                SELECT ram, k, start_us, id, 0.0001 * (1 + 0.1 * sin(start_us / 5e12) + 0.02 * random()), 0.000002 FROM made, unnest(ARRAY[{kinds}]) k
                """,
                packed);
        }

        Run($"ANALYZE");
    }
}
