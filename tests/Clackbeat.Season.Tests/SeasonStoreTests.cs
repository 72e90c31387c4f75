using System.Data.Common;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Site;

namespace Clackbeat.Season.Tests;

/// <summary>What every season store must do, whatever it stands on.</summary>
public abstract class SeasonStoreTests
{
    private const string Ram = KilledWriter.Ram;

    // 200 kills take some minutes; CLACKBEAT_LONG=1 asks for them.
    private static readonly int Kills = KilledProgram.Kills;

    protected abstract StoreHome Home();

    [SkippableFact]
    public void A_burst_comes_back_as_it_was_stored()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        SeasonBurst burst = KilledWriter.Burst(7);
        Assert.Equal(1, store.Add([burst]));
        SeasonBurst back = Assert.Single(store.Bursts(Ram, TimeSpanUtc.All));
        Assert.Equal(burst.SourceHash, back.SourceHash);
        Assert.Equal((burst.Source, burst.StartUtc, burst.DurationS, burst.State), (back.Source, back.StartUtc, back.DurationS, back.State));
        Assert.Equal(burst.Figures, back.Figures);
        Assert.Equal(burst.Conditions, back.Conditions);
        Assert.Equal(burst.Beats.Count, back.Beats.Count);
        Assert.Equal(new SeasonPoint(burst.StartUtc, 50.007, 0.1), Assert.Single(store.Series(Ram, SeasonFigure.Rate, TimeSpanUtc.All)));
    }

    [SkippableFact]
    public void Many_bursts_come_back_in_order_and_only_those_asked_for()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        Assert.Equal(600, store.Add([.. Enumerable.Range(0, 600).Reverse().Select(KilledWriter.Burst)]));
        store.Add([KilledWriter.Burst(1000) with { StartUtc = KilledWriter.Burst(250).StartUtc, Source = "another of the same instant" }]);
        SeasonBurst[] all = [.. store.Bursts(Ram, TimeSpanUtc.All)];
        Assert.Equal(601, all.Select(b => b.Source).Distinct().Count());
        Assert.Equal(all.OrderBy(b => b.StartUtc).Select(b => b.Source), all.Select(b => b.Source));
        Assert.All(all, b => Assert.Equal((2, 1, 50), (b.Figures.Count, b.Conditions.Count, b.Beats.Count)));
        var span = new TimeSpanUtc(KilledWriter.Burst(10).StartUtc, KilledWriter.Burst(20).StartUtc);
        Assert.Equal(Enumerable.Range(10, 10).Select(n => $"burst {n}"), store.Bursts(Ram, span).Select(b => b.Source));
        Assert.Equal(10, store.Series(Ram, SeasonFigure.PeakMax, span).Count);
        Assert.Equal(10, store.States(Ram, span).Count);
    }

    [SkippableFact]
    public void The_same_burst_of_the_same_ram_is_stored_once()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        SeasonBurst burst = KilledWriter.Burst(1);
        Assert.Equal(1, store.Add([burst, burst with { Source = "a copy of the file" }]));
        Assert.Equal(0, store.Add([burst]));
        Assert.True(store.Has(Ram, burst.SourceHash));
        Assert.Equal(1, store.Add([burst with { Ram = "another ram" }]));
        Assert.Equal(["another ram", Ram], store.Rams());
    }

    /// <summary>A ram's last week is its own last week: weeks of 10 bursts at 4 L/min, then of 10 at 6, and the means are those.</summary>
    [SkippableFact]
    public void All_rams_are_summed_up_at_once_each_by_its_own_last_weeks()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        var end = new DateTimeOffset(2025, 8, 1, 0, 0, 0, TimeSpan.Zero);
        SeasonBurst Burst(string ram, int n, double daysBefore, double value, RamState state = RamState.Beating) => KilledWriter.Burst(n) with
        {
            Ram = ram,
            StartUtc = end.AddDays(-daysBefore),
            State = state,
            Figures = state == RamState.Beating
                ? new Dictionary<SeasonFigure, SeasonValue> { [SeasonFigure.Delivered] = new(value, 0.1 * value) { IsUpperBound = ram == "b" && daysBefore == 0 }, [SeasonFigure.Rate] = new(50, 1) }
                : new Dictionary<SeasonFigure, SeasonValue>(),
        };
        store.Add([.. Enumerable.Range(0, 10).Select(i => Burst("a", i, 8 + i, 4))]);
        store.Add([.. Enumerable.Range(0, 10).Select(i => Burst("a", 10 + i, 0.5 * i, 6, i < 4 ? RamState.StoppedShut : RamState.Beating))]);
        store.Add([Burst("a", 30, 300, 999), Burst("b", 31, 0, 3), Burst("b", 32, 100, 1)]);
        store.Add(new MaintenanceMark("a", end.AddDays(-40), "new rubber"));
        store.Add(new MaintenanceMark("a", end.AddDays(-20), "cleaned the strainer"));

        IReadOnlyList<RamSummary> all = ((IOverviewStore)store).Summaries();
        Assert.Equal(["a", "b"], all.Select(s => s.Ram));
        Assert.Equal((RamState.StoppedShut, end, 0.6), (all[0].Last.State, all[0].Last.AtUtc, Math.Round(all[0].BeatingShare, 9)));
        Assert.Equal((6, 4), (Math.Round(all[0].Delivered!.Value.Week.Value, 9), Math.Round(all[0].Delivered!.Value.Before!.Value.Value, 9)));
        Assert.Equal(0.6, all[0].Delivered!.Value.Week.U!.Value, 1e-9);
        Assert.Equal("cleaned the strainer", all[0].LastMark!.Words);
        Assert.Equal(KilledWriter.Burst(0).Conditions, all[0].Conditions);

        // Sixteen bursts of the last fortnight, of which the first lies 13 days back.
        Assert.Equal(86_400.0 * 13 / 15, all[0].SpacingS!.Value, 1e-6);
        Assert.Null(all[1].SpacingS);
        Assert.Null(all[1].Delivered!.Value.Before);
        Assert.True(all[1].Delivered!.Value.Week.IsUpperBound);
    }

    /// <summary>Views are promised to other programs: the names of columns, SI beside display units, and nothing that was taken out.</summary>
    [SkippableFact]
    public void Other_programs_read_views_in_si_and_in_display_units()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        SeasonBurst kept = KilledWriter.Burst(1) with
        {
            Figures = new Dictionary<SeasonFigure, SeasonValue> { [SeasonFigure.Delivered] = new(1e-4, 1e-5) { IsUpperBound = true }, [SeasonFigure.PeakTrue] = new(4e5, null) },
        };
        store.Add([kept, KilledWriter.Burst(2)]);
        store.Remove([KilledWriter.Burst(2)], Note("held by hand"));
        Assert.Equal(1L, Convert.ToInt64(home.Execute("SELECT COUNT(*) FROM bursts"), System.Globalization.CultureInfo.InvariantCulture));

        // 0.1 L/s are 6 L/min; 400 kPa are 4 bar.
        Assert.Equal("6 0.6 L/min", home.Execute("SELECT CAST(ROUND(CAST(shown AS NUMERIC), 3) * 1.0 AS INTEGER) || ' ' || '0.6' || ' ' || shown_unit FROM figures WHERE figure = 'delivered' AND ABS(shown_u - 0.6) < 1e-9 AND is_upper_bound"));
        Assert.Equal("4 bar", home.Execute("SELECT CAST(ROUND(CAST(shown AS NUMERIC), 3) AS INTEGER) || ' ' || shown_unit FROM figures WHERE figure = 'peak-true' AND NOT is_upper_bound"));
        foreach (SeasonFigure figure in Enum.GetValues<SeasonFigure>())
        {
            Assert.Equal(figure.Unit(), home.Execute($"SELECT si_unit FROM figure_unit WHERE kind = '{figure.Code()}'"));
        }

        foreach (string view in new[] { "rams", "bursts", "figures", "conditions", "marks", "corrections" })
        {
            home.Execute($"SELECT COUNT(*) FROM {view} WHERE ram = 'x'");
        }
    }

    [SkippableFact]
    public void A_wrong_start_is_corrected_kept_in_the_journal_and_can_be_undone()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        SeasonBurst burst = KilledWriter.Burst(3);
        store.Add([burst, KilledWriter.Burst(4)]);
        store.Move([burst], TimeSpan.FromHours(2), Note("winter time"));

        DateTimeOffset right = burst.StartUtc.AddHours(2);
        SeasonBurst moved = store.Bursts(Ram, TimeSpanUtc.All).Single(b => b.SourceHash.SequenceEqual(burst.SourceHash));
        Assert.Equal(right, moved.StartUtc);
        Assert.Equal(burst.Figures, moved.Figures);
        Assert.Contains(store.Series(Ram, SeasonFigure.Rate, TimeSpanUtc.All), p => p.AtUtc == right);
        JournalEntry entry = Assert.Single(store.Journal(Ram));
        Assert.Equal(
            (JournalAction.BurstMoved, "anna", burst.StartUtc, (DateTimeOffset?)right, burst.Source, "winter time"),
            (entry.Action, entry.Who, entry.WasUtc, entry.IsUtc, entry.Was, entry.Why));

        store.Undo(Ram, entry.Number, Note("it was right"));
        Assert.Contains(store.States(Ram, TimeSpanUtc.All), s => s.AtUtc == burst.StartUtc);
        Assert.Throws<InputException>(() => store.Undo(Ram, entry.Number, Note("twice")));
        Assert.Equal(2, store.Journal(Ram).Count);
    }

    [SkippableFact]
    public void A_burst_taken_out_stays_out_until_that_is_undone()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        SeasonBurst burst = KilledWriter.Burst(3);
        store.Add([burst, KilledWriter.Burst(4)]);
        store.Remove([burst], Note("the valve was held by hand"));
        Assert.Equal([Ram], store.Rams());
        Assert.Single(store.Bursts(Ram, TimeSpanUtc.All));
        Assert.Single(store.Series(Ram, SeasonFigure.Rate, TimeSpanUtc.All));
        Assert.True(store.Has(Ram, burst.SourceHash));
        Assert.Equal(0, store.Add([burst]));

        store.Undo(Ram, Assert.Single(store.Journal(Ram)).Number, Note("it wasn't"));
        SeasonBurst back = store.Bursts(Ram, TimeSpanUtc.All).Single(b => b.SourceHash.SequenceEqual(burst.SourceHash));
        Assert.Equal(burst.Figures, back.Figures);
        Assert.Equal(burst.Beats.Count, back.Beats.Count);
    }

    [SkippableFact]
    public void A_mark_is_corrected_and_taken_out_with_what_was_there_kept()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        store.Add([KilledWriter.Burst(1)]);
        var mark = new MaintenanceMark(Ram, new DateTimeOffset(2025, 6, 12, 10, 0, 0, TimeSpan.Zero), "replaced clack ruber");
        store.Add(mark);
        MaintenanceMark right = mark with { Words = "replaced clack rubber", AtUtc = mark.AtUtc.AddDays(1) };
        store.Change(mark, right, Note("a slip"));
        Assert.Equal(right, Assert.Single(store.Marks(Ram)));
        store.Change(right, null, Note("the other ram"));
        Assert.Empty(store.Marks(Ram));

        IReadOnlyList<JournalEntry> journal = store.Journal(Ram);
        Assert.Equal(["replaced clack ruber", "replaced clack rubber"], journal.Select(e => e.Was));
        store.Undo(Ram, journal[1].Number, Note("it was this one"));
        store.Undo(Ram, journal[0].Number, Note("no slip"));
        Assert.Equal(mark, Assert.Single(store.Marks(Ram)));
    }

    /// <summary>Bursts 1 to 4 came under one name and 3 to 6 under another: six in all, whatever comes again under either name.</summary>
    [SkippableFact]
    public void Two_names_of_one_ram_are_joined_and_what_is_under_both_counts_once()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        const string Old = "Mill ram";
        SeasonBurst[] old = [.. Enumerable.Range(1, 4).Select(n => KilledWriter.Burst(n) with { Ram = Old })];
        store.Add(old);
        store.Add([.. Enumerable.Range(3, 4).Select(KilledWriter.Burst)]);
        DateTimeOffset at = old[0].StartUtc;
        store.Add(new MaintenanceMark(Old, at, "new rubber"));
        store.Add(new MaintenanceMark(Old, at.AddDays(1), "cleaned"));
        store.Add(new MaintenanceMark(Ram, at, "new rubber"));
        store.Merge(Old, Ram, Note("the site file was renamed"));

        void IsWhole(int bursts)
        {
            Assert.Equal([Ram], store.Rams());
            Assert.Equal(Enumerable.Range(1, bursts).Select(n => KilledWriter.Burst(n).StartUtc), store.States(Ram, TimeSpanUtc.All).Select(s => s.AtUtc));
            Assert.Equal(bursts, store.Series(Ram, SeasonFigure.Rate, TimeSpanUtc.All).Count);
            Assert.Equal(["new rubber", "cleaned"], store.Marks(Ram).Select(m => m.Words));
            Assert.Equal(Ram, Assert.Single(((IOverviewStore)store).Summaries()).Ram);
        }

        IsWhole(6);
        Assert.Equal(0, store.Add(old));
        Assert.True(store.Has(Old, old[0].SourceHash));
        Assert.Equal(1, store.Add([KilledWriter.Burst(7) with { Ram = Old }]));
        IsWhole(7);
        Assert.Equal(7L, Convert.ToInt64(home.Execute("SELECT COUNT(*) FROM bursts"), System.Globalization.CultureInfo.InvariantCulture));

        JournalEntry entry = Assert.Single(store.Journal(Ram));
        Assert.Equal((JournalAction.RamMerged, "anna", Old, Ram), (entry.Action, entry.Who, entry.Was, entry.Becomes));
        Assert.Throws<InputException>(() => store.Merge(Ram, "another", Note("there is none")));
        store.Undo(Ram, entry.Number, Note("they are two"));
        Assert.Equal([Old, Ram], store.Rams());
        Assert.Equal([1, 2, 3, 4, 7], Numbers(store, Old));
        Assert.Equal([3, 4, 5, 6], Numbers(store, Ram));
        Assert.Equal(2, store.Marks(Old).Count);
        Assert.Throws<InputException>(() => store.Undo(Ram, entry.Number, Note("twice")));
    }

    [SkippableFact]
    public void A_name_that_others_were_joined_into_is_not_joined_further()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        foreach (string ram in new[] { "a", "b", "c" })
        {
            store.Add([KilledWriter.Burst(1) with { Ram = ram }]);
        }

        store.Merge("a", "b", Note("one ram"));
        Assert.Contains("\"a\" was joined", Assert.Throws<InputException>(() => store.Merge("b", "c", Note("one ram"))).Message, StringComparison.Ordinal);
        Assert.Throws<InputException>(() => store.Merge("a", "c", Note("gone")));
        Assert.Throws<InputException>(() => store.Merge("c", "c", Note("itself")));

        // What a keeper took out stays out under every name.
        SeasonBurst burst = Assert.Single(store.Bursts("b", TimeSpanUtc.All));
        store.Remove([burst], Note("held by hand"));
        Assert.Equal(0, store.Add([burst, burst with { Ram = "a" }]));
        Assert.Equal(["b", "c"], store.Rams());
        Assert.Empty(store.States("b", TimeSpanUtc.All));
    }

    [SkippableFact]
    public void A_recording_logged_while_it_runs_and_again_is_stored_once()
    {
        using StoreHome home = Home();
        using var store = (ICorrectableStore)home.Open();
        SeasonBurst whole = KilledWriter.Burst(5) with { Source = "day.cbrec", DurationS = 300, Beats = Beats(200) };
        // Its last beat ended otherwise while the recording still ran, and its clock was tied 40 ms off.
        SeasonBurst part = KilledWriter.Burst(6) with
        {
            Source = "/media/card/day.cbrec",
            StartUtc = whole.StartUtc.AddMilliseconds(40),
            DurationS = 100,
            Beats = Beats(70),
        };
        Assert.Equal(1, store.Add([part]));
        Assert.Equal(1, store.Add([whole]));
        Assert.Equal(whole.SourceHash, Assert.Single(store.Bursts(Ram, TimeSpanUtc.All)).SourceHash);
        Assert.Equal(JournalAction.BurstReplaced, Assert.Single(store.Journal(Ram)).Action);

        // A copy that was made meanwhile comes later.
        Assert.Equal(0, store.Add([part]));
        Assert.Equal(0, store.Add([KilledWriter.Burst(7) with { Source = "day.cbrec", StartUtc = whole.StartUtc, DurationS = 200, Beats = Beats(140) }]));
        // Another ram's recording of the same name and instant is another burst.
        Assert.Equal(1, store.Add([KilledWriter.Burst(8) with { Source = "day.cbrec", StartUtc = whole.StartUtc, Beats = Beats(60, 1.31) }]));
    }

    private static SeasonBeat[] Beats(int count, double intervalS = 1.26) =>
        [.. Enumerable.Range(0, count).Select(i => new SeasonBeat(0.3 + (intervalS * i), intervalS, 4e5, 2e5, -1e4, null))];

    private static CorrectionNote Note(string why) => new("anna", why, DateTimeOffset.UtcNow);

    [SkippableFact]
    public void A_batch_that_fails_leaves_nothing_behind()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        SeasonBurst broken = KilledWriter.Burst(2) with { Beats = [new SeasonBeat(double.NaN, 1, 1, 1, 1, null)] };
        Assert.ThrowsAny<Exception>(() => store.Add([KilledWriter.Burst(1), broken]));
        Assert.Empty(store.Rams());
        Assert.Equal(1, store.Add([KilledWriter.Burst(1)]));
    }

    [SkippableFact]
    public void A_mark_is_kept_and_kept_once()
    {
        using StoreHome home = Home();
        using ISeasonStore store = home.Open();
        var mark = new MaintenanceMark(Ram, new DateTimeOffset(2025, 6, 12, 14, 0, 0, TimeSpan.FromHours(2)), "replaced clack rubber");
        store.Add(mark);
        store.Add(mark);
        Assert.Equal(mark, Assert.Single(store.Marks(Ram)));
    }

    [SkippableFact]
    public void A_store_of_any_earlier_version_is_brought_up_to_date_with_all_it_holds()
    {
        int latest = Latest();
        for (int version = 1; version <= latest; version++)
        {
            using StoreHome home = Home();
            using (DbConnection old = home.MakeOld(version))
            {
                foreach (string sql in new[]
                {
                    $"INSERT INTO ram (name) VALUES ('{Ram}')",
                    """
                    INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness)
                    VALUES ((SELECT id FROM ram), @bytes, 'old', 1000000, 60000000, 'stopped-open', 0, 'complete')
                    """,
                    "INSERT INTO figure (ram, kind, start_us, burst, value, u) SELECT ram, 'rate', 1000000, id, 50, 0.1 FROM burst",
                    "INSERT INTO beats (burst, packed) SELECT id, @bytes FROM burst",
                })
                {
                    using DbCommand command = old.CreateCommand();
                    command.CommandText = sql;
                    DbParameter bytes = command.CreateParameter();
                    (bytes.ParameterName, bytes.Value) = ("@bytes", BeatPack.Pack([]));
                    command.Parameters.Add(bytes);
                    command.ExecuteNonQuery();
                }
            }

            using ISeasonStore store = home.Open(create: false);
            SeasonBurst back = Assert.Single(store.Bursts(Ram, TimeSpanUtc.All));
            Assert.Equal(("old", new SeasonValue(50, 0.1)), (back.Source, back.Figures[SeasonFigure.Rate]));
            store.Add(new MaintenanceMark(Ram, DateTimeOffset.UnixEpoch, "greased it"));
            Assert.Single(store.Marks(Ram));
        }

        int Latest()
        {
            using StoreHome home = Home();
            return home.Latest;
        }
    }

    [SkippableFact]
    public void A_store_of_a_later_version_is_refused_with_both_versions_named()
    {
        using StoreHome home = Home();
        home.Open().Dispose();
        home.Execute("INSERT INTO schema_version VALUES (99, 0)");
        string refusal = Assert.Throws<InputException>(() => home.Open(create: false)).Message;
        Assert.Contains("version 99", refusal, StringComparison.Ordinal);
        Assert.Contains($"version {home.Latest}", refusal, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_missing_store_is_not_made_by_one_who_only_reads()
    {
        using StoreHome home = Home();
        Assert.Contains("season store", Assert.Throws<InputException>(() => home.Open(create: false)).Message, StringComparison.Ordinal);
        Assert.Contains("season store", Assert.Throws<InputException>(() => home.Open(create: false)).Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Hosts_that_write_at_once_store_each_burst_once_and_each_is_told_what_was_new()
    {
        const int hosts = 4;
        using StoreHome home = Home();

        // All open the empty store at once; every burst comes from two hosts, in another order from each.
        int added = 0;
        Parallel.For(0, hosts, new ParallelOptions { MaxDegreeOfParallelism = hosts }, host =>
        {
            using ISeasonStore store = home.Open();
            var random = new Random(host);
            int[] mine = [.. Enumerable.Range(0, 200).Where(n => n % hosts == host || (n + 1) % hosts == host)];
            random.Shuffle(mine);
            foreach (int[] batch in mine.Chunk(7))
            {
                Interlocked.Add(ref added, store.Add([.. batch.Select(KilledWriter.Burst)]));
            }
        });
        using ISeasonStore whole = home.Open(create: false);
        Assert.Equal(200, added);
        Assert.Equal(200, whole.Bursts(Ram, TimeSpanUtc.All).Select(b => b.Source).Distinct().Count());
        Assert.Equal(200, whole.States(Ram, TimeSpanUtc.All).Count);
    }

    [SkippableFact]
    public void A_backup_made_while_another_writes_is_a_whole_store_and_restores()
    {
        using StoreHome home = Home();
        using var folder = new TemporaryFolder();
        using ISeasonStore store = home.Open();
        store.Add([.. Enumerable.Range(0, 300).Select(KilledWriter.Burst)]);
        store.Add(new MaintenanceMark(Ram, DateTimeOffset.UnixEpoch, "greased it"));
        using (ISeasonStore other = home.Open(create: false))
        {
            other.Add([KilledWriter.Burst(300)]);
            StoreBackup.Write(store, folder["b.db"]);
            other.Add([KilledWriter.Burst(301)]);
        }

        Assert.Throws<InputException>(() => StoreBackup.Write(store, folder["b.db"]));
        using StoreHome elsewhere = Home();
        using ISeasonStore restored = elsewhere.Open();
        Assert.Equal(301, StoreBackup.Restore(folder["b.db"], restored));
        Assert.Equal(0, StoreBackup.Restore(folder["b.db"], restored));
        SeasonBurst[] before = [.. store.Bursts(Ram, TimeSpanUtc.All).Take(301)];
        SeasonBurst[] after = [.. restored.Bursts(Ram, TimeSpanUtc.All)];
        Assert.Equal(301, after.Length);
        Assert.All(before.Zip(after), pair =>
        {
            Assert.Equal(pair.First.SourceHash, pair.Second.SourceHash);
            Assert.Equal(pair.First.Figures, pair.Second.Figures);
            Assert.Equal(pair.First.Beats, pair.Second.Beats);
        });
        Assert.Equal("greased it", Assert.Single(restored.Marks(Ram)).Words);
    }

    [SkippableFact]
    public void Killing_the_writer_at_any_moment_loses_no_stored_burst_and_stores_none_twice()
    {
        using StoreHome home = Home();
        var random = new Random(8);
        int next = 1;
        for (int kill = 0; kill < Kills; kill++)
        {
            int acknowledged = KilledWriter.RunAndKill(home.Name, next, random.Next(0, 700), kill % 2 == 1);
            next = Math.Max(acknowledged, next - 1) + 1;
            using ISeasonStore store = home.Open();

            // The whole store at the end, what is new after each kill.
            DateTimeOffset from = kill == Kills - 1 ? DateTimeOffset.UnixEpoch : KilledWriter.Burst(Math.Max(0, acknowledged - 50)).StartUtc;
            SeasonBurst[] bursts = [.. store.Bursts(Ram, TimeSpanUtc.All with { From = from })];
            var stored = bursts.Select(b => b.Source).ToHashSet();
            Assert.Equal(bursts.Length, stored.Count);
            Assert.All(Enumerable.Range(1, next - 1).Where(n => KilledWriter.Burst(n).StartUtc >= from), n => Assert.Contains($"burst {n}", stored));
            Assert.All(bursts, b => Assert.Equal((2, 1, 50), (b.Figures.Count, b.Conditions.Count, b.Beats.Count)));
        }

        Assert.True(next > Kills, "The writer was killed before it could store anything.");
    }

    /// <summary>Two names are joined and parted again, with marks between; each as a whole or not at all.</summary>
    [SkippableFact]
    public void Killing_who_joins_names_and_writes_marks_leaves_each_done_or_not_begun()
    {
        using StoreHome home = Home();
        var random = new Random(9);
        int next = 1;
        for (int kill = 0; kill < Kills; kill++)
        {
            int done = KilledMerger.RunAndKill(home.Name, next, random.Next(0, 700), kill % 2 == 1);
            using var store = (ICorrectableStore)home.Open();
            next = KilledMerger.AssertWhole(store, next, done) + 1;
        }

        Assert.True(next > Kills, "It was killed before it could write anything.");
    }

    private static IEnumerable<int> Numbers(ISeasonStore store, string ram) =>
        store.Bursts(ram, TimeSpanUtc.All).Select(b => (int)((b.StartUtc - DateTimeOffset.UnixEpoch).TotalMinutes / 15));
}
