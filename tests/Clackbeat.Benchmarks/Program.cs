using System.CommandLine;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.NoEmit;
using Clackbeat.Benchmarks.Stages;
using Clackbeat.Benchmarks.Whole;

// The stages run in this process: a project that the library wrote beside them would not know this repository's build files.
var stages = new Command("stages", "Time each stage of the way from bytes to a stored burst");
stages.SetAction(_ =>
{
    IConfig config = ManualConfig.CreateEmpty()
        .AddJob(Job.ShortRun.WithToolchain(InProcessNoEmitToolchain.Instance))
        .AddLogger(ConsoleLogger.Default)
        .AddExporter(MarkdownExporter.GitHub)
        .AddColumnProvider(DefaultConfig.Instance.GetColumnProviders().ToArray())
        .WithArtifactsPath(Path.Combine(Path.GetTempPath(), "clackbeat-benchmarks"));
    BenchmarkRunner.Run([typeof(BytesStage), typeof(TraceStage), typeof(RecordStage), typeof(SeasonStage)], config);
});

var python = new Option<string>("--python") { DefaultValueFactory = _ => "python3", Description = "A Python that has NumPy and SciPy" };
var traces = new Option<string[]>("--trace") { AllowMultipleArgumentsPerToken = true, DefaultValueFactory = _ => [], Description = "Traces of your own (t_s, p_kPa), each laid end to end over an hour, instead of the virtual rams" };
var site = new Option<string>("--site") { DefaultValueFactory = _ => "", Description = "The site file of the ram of these traces" };
var detection = new Command("detection", "Time the finding of beats beside SciPy's filter and peak finder, on the same hours of trace") { python, traces, site };
detection.SetAction(line => DetectionRace.Run(
    line.GetRequiredValue(python),
    line.GetRequiredValue(traces) is { Length: > 0 } own ? own.Select(file => RaceTrace.Own(file, line.GetRequiredValue(site))) : RaceTrace.Virtual()));

var hours = new Option<int[]>("--hours") { AllowMultipleArgumentsPerToken = true, DefaultValueFactory = _ => [1, 6, 24] };
var records = new Command("records", "Time the whole analysis of long records as a program, with its memory") { hours };
records.SetAction(line => LongRecords.Run(line.GetRequiredValue(hours)));

var program = new Option<string?>("--program") { Description = "The executable to time, such as one of an archive; left out: the one that was just built" };
var starts = new Command("starts", "Time the program as a keeper starts it, on a minute of record, with its memory") { program };
starts.SetAction(line => Starts.Run(Path.GetFullPath(line.GetValue(program) ?? LongRecords.ProgramPath)));

var store = new Argument<string>("STORE") { Description = "A season store that may be filled: a file, or Host=…;Database=… of a server; one that is filled already is measured as it is" };
var rams = new Option<int>("--rams") { DefaultValueFactory = _ => 1000 };
var years = new Option<int>("--years") { DefaultValueFactory = _ => 5 };
var writers = new Option<int>("--writers") { DefaultValueFactory = _ => 20 };
var write = new Option<int>("--write") { DefaultValueFactory = _ => 60, Description = "For how many seconds they write; 0 for not at all" };
var batch = new Option<int>("--batch") { DefaultValueFactory = _ => 50, Description = "Bursts a transaction; a packet of a far computer has up to 50" };
var kill = new Option<double>("--kill") { Description = "Kill a writer every so many seconds" };
var crash = new Option<string>("--crash") { DefaultValueFactory = _ => "", Description = "A command that crashes the server and starts it again" };
var season = new Command("season", "Time a store of many rams over years, and writers that are killed") { store, rams, years, writers, write, batch, kill, crash };
season.SetAction(line => ManyRams.Run(line.GetRequiredValue(store), new ManyRamsPlan(
    line.GetValue(rams), line.GetValue(years), line.GetValue(writers), line.GetValue(write), line.GetValue(batch), line.GetValue(kill), line.GetRequiredValue(crash))));

var written = new Argument<string>("RAM");
var first = new Argument<int>("FIRST");
var size = new Argument<int>("BATCH");
var writer = new Command("writer", "One writer of 'season'") { store, written, first, size };
writer.Hidden = true;
writer.SetAction(line => WriterHerd.Write(line.GetRequiredValue(store), line.GetRequiredValue(written), line.GetValue(first), line.GetValue(size)));

return new RootCommand("How fast Clackbeat is; nothing here is a test") { stages, detection, records, starts, season, writer }.Parse(args).Invoke();
