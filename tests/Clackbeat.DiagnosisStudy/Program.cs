using System.CommandLine;
using Clackbeat.DiagnosisStudy.Records;
using Clackbeat.DiagnosisStudy.Training;

var folder = new Argument<string>("FOLDER");
var first = new Option<int>("--first") { DefaultValueFactory = _ => 0 };
var count = new Option<int>("--rams") { DefaultValueFactory = _ => 200 };
var simulate = new Command("simulate", "Run random virtual rams and keep their records in a folder") { folder, first, count };
simulate.SetAction(line => RecordMaker.Make(line.GetRequiredValue(folder), line.GetValue(first), line.GetValue(count)));
var table = new Argument<string>("TABLE");
var measure = new Command("measure", "Analyse the kept records and write their signs, a row a record") { folder, table, first, count };
measure.SetAction(line => SignTable.Measure(line.GetRequiredValue(folder), line.GetRequiredValue(table), line.GetValue(first), line.GetValue(count)));
var traces = new Command("measure-traces", "The same for traces of another origin, with their truth beside them") { folder, table };
traces.SetAction(line => SignTable.MeasureTraces(line.GetRequiredValue(folder), line.GetRequiredValue(table)));
var tables = new Argument<string[]>("TABLES");
var into = new Option<string>("--out") { Required = true };
var train = new Command("train", "Train the models on tables of signs and write the program's data files") { tables, into };
train.SetAction(line => Trainer.Train(line.GetRequiredValue(tables), line.GetRequiredValue(into)));
return new RootCommand("How well the diagnosis tells the conditions of rams it has never seen") { simulate, measure, traces, train }.Parse(args).Invoke();
