using System.CommandLine;
using Clackbeat.DiagnosisStudy.Flow;
using Clackbeat.DiagnosisStudy.Leaks;
using Clackbeat.DiagnosisStudy.Published;
using Clackbeat.DiagnosisStudy.Records;
using Clackbeat.DiagnosisStudy.Training;
using Clackbeat.DiagnosisStudy.Twins;
using Clackbeat.VirtualRam.Field;

var folder = new Argument<string>("FOLDER");
var first = new Option<int>("--first") { DefaultValueFactory = _ => 0 };
var count = new Option<int>("--rams") { DefaultValueFactory = _ => 200 };
var simulate = new Command("simulate", "Run random virtual rams and keep their records in a folder") { folder, first, count };
simulate.SetAction(line => RecordMaker.Make(line.GetRequiredValue(folder), line.GetValue(first), line.GetValue(count)));
var table = new Argument<string>("TABLE");
var measure = new Command("measure", "Analyse the kept records and write their features, a row a record") { folder, table, first, count };
measure.SetAction(line => FeatureTable.Measure(line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(first), line.GetValue(count)));
var shut = new Command("shut", "Make the test with gate and waste valve shut on rams that are well or leak, and write what the program reads; what the folder holds is not run again") { folder, table, first, count };
shut.SetAction(line => ShutStudy.Write(line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(first), line.GetValue(count)));
var repeat = new Command("repeat", "Make the tests by hand that repeat a record, and the bucket's, and keep what changed in the folder") { folder, first, count };
repeat.SetAction(line => RepeatStudy.Write(line.GetRequiredValue(folder), line.GetValue(first), line.GetValue(count)));
var into = new Option<string>("--out") { Required = true };
var counted = new Command("likelihoods", "Count the verdicts of the tests by hand, from what shut and repeat wrote, into the program's data file") { table, folder, into };
counted.SetAction(line => LikelihoodTable.Write(line.GetRequiredValue(table), line.GetRequiredValue(folder), line.GetRequiredValue(into)));
var traces = new Command("measure-traces", "The same for traces of another origin, with their truth beside them") { folder, table };
traces.SetAction(line => FeatureTable.MeasureTraces(line.GetRequiredValue(folder), line.GetRequiredValue(table)));
var remarks = new Command("remarks", "Count the signs that name no condition over the kept records") { folder, first, count };
remarks.SetAction(line => Console.WriteLine(RemarkTable.Count(line.GetRequiredValue(folder), line.GetValue(first), line.GetValue(count))));
var tables = new Argument<string[]>("TABLES");
var docs = new Option<string>("--docs") { DefaultValueFactory = _ => "docs" };
var onto = new Option<string?>("--onto") { Description = "Folder with the trees of an earlier study to go on from; left out: begin afresh" };
var train = new Command("train", "Train the models on tables of features; write the program's data files, the results page and its plot") { tables, into, onto, docs };
train.SetAction(line => Trainer.Train(line.GetRequiredValue(tables), line.GetRequiredValue(into), line.GetValue(onto), line.GetValue(docs)!));
var wellCounts = new Option<double?>("--well") { Description = "Weight of a well record" };
var trees = new Option<int?>("--trees");
var depth = new Option<int?>("--depth");
var rate = new Option<double?>("--rate");
var least = new Option<double?>("--least") { Description = "Least rows in a leaf" };
var choose = new Command("choose", "Cross-validate over the rams to train on: what settings are chosen by") { tables, wellCounts, trees, depth, rate, least, onto };
TrainingSettings Changed(ParseResult line, TrainingSettings usual) => usual with
{
    WellCounts = line.GetValue(wellCounts) ?? usual.WellCounts,
    Trees = usual.Trees with
    {
        Trees = line.GetValue(trees) ?? usual.Trees.Trees,
        Depth = line.GetValue(depth) ?? usual.Trees.Depth,
        Rate = line.GetValue(rate) ?? usual.Trees.Rate,
        LeastRows = line.GetValue(least) ?? usual.Trees.LeastRows,
    },
};
choose.SetAction(line => Trainer.Choose(line.GetRequiredValue(tables), line.GetValue(onto), usual => Changed(line, usual)));
var maybeInto = new Option<string?>("--out") { Description = "Where the data files go; left out: only print how the rams to train on are judged" };
var recalibrate = new Command("recalibrate", "Fit only the calibration of the shipped trees; write it, the results page and its plot") { tables, wellCounts, maybeInto, docs };
recalibrate.SetAction(line => Recalibration.Run(line.GetRequiredValue(tables), line.GetValue(maybeInto), line.GetValue(docs)!, usual => Changed(line, usual)));
var judge = new Command("judge", "Judge rams by the models the program ships; only rams that they were not trained on say anything") { tables };
judge.SetAction(line => ShippedModels.Judge(line.GetRequiredValue(tables)));
var leaks = new Command("leaks", "Run healthy and leaking records of some rams and write what the delivered flow says of them, with and without a baseline") { table, first, count };
leaks.SetAction(line =>
{
    LeakTable.Write(line.GetRequiredValue(table), line.GetValue(first), line.GetValue(count));
    Console.WriteLine(LeakTable.Summary(line.GetRequiredValue(table)));
});
var published = new Command("published", "Hold virtual rams and the rams of a folder against published figures; write the plot and the tables of the page") { docs };
published.SetAction(line => PublishedPage.Write(line.GetRequiredValue(docs)));
var set = new Option<FieldSet>("--set") { Description = "choosing, checking or reporting: a constant chosen on a set is never reported on it" };
var flow = new Command("flow", "Measure drawn rams, their records kept in a folder, and write the flows found beside the true ones") { folder, table, set, first, count };
flow.SetAction(line => FlowTable.Write(
    line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(set), line.GetValue(first), line.GetValue(count)));
var flowTraces = new Command("flow-traces", "The same for traces of another origin") { folder, table };
flowTraces.SetAction(line => FlowTable.WriteTraces(line.GetRequiredValue(folder), line.GetRequiredValue(table)));
var domain = new Option<TwinDomain>("--domain") { Description = "plain, softspring or usual" };
var threads = new Option<int>("--threads") { DefaultValueFactory = _ => 1, Description = "Rams measured at once; the times hold for one" };
var twin = new Command("twin", "Fit a twin to drawn rams and write what it foretells of changes beside what happens") { folder, table, domain, set, first, count, threads };
twin.SetAction(line => TwinTable.Write(
    line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(domain), line.GetValue(set), line.GetValue(first), line.GetValue(count), line.GetValue(threads)));
var tuning = new Command("tuning", "Tune the stroke of drawn rams with and without a twin and write how many trials each needs") { folder, table, domain, set, first, count, threads };
tuning.SetAction(line => TuningTable.Write(
    line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(domain), line.GetValue(set), line.GetValue(first), line.GetValue(count), line.GetValue(threads)));
var shift = new Command("shift", "Fit twins to two records of drawn rams and write which parts they say have moved between them") { table, domain, set, first, count, threads };
shift.SetAction(line => ShiftTable.Write(
    line.GetRequiredValue(table), line.GetValue(domain), line.GetValue(set), line.GetValue(first), line.GetValue(count), line.GetValue(threads)));
var air = new Command("air", "Fit twins to drawn rams with little and much air in their vessels and write what is seen of it and foretold of a change") { table, domain, set, first, count, threads };
air.SetAction(line => AirTable.Write(
    line.GetRequiredValue(table), line.GetValue(domain), line.GetValue(set), line.GetValue(first), line.GetValue(count), line.GetValue(threads)));
var coverage = new Command("flow-coverage", "Write what the ± of flows is made of beside the errors, one record a ram: the frozen table of a test") { folder, table, set, count };
coverage.SetAction(line => CoverageTable.Write(
    line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(set), line.GetValue(count)));
return new RootCommand("How well the diagnosis tells the conditions of rams it has never seen") { simulate, measure, traces, remarks, shut, repeat, counted, choose, train, recalibrate, judge, leaks, flow, flowTraces, coverage, twin, tuning, shift, air, published }.Parse(args).Invoke();
