// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Grading;
using SensorSim.Grading.Groups;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Grading.SelfCheck;

GradingGroup[] all = GradingGroup.All();
GradingOptions options;
try
{
    options = GradingOptions.Parse(args, [.. all.Select(g => g.Name)]);
}
catch (FormatException e)
{
    Console.Error.WriteLine($"grading: {e.Message}");
    Console.Error.WriteLine(GradingOptions.Usage);
    return 2;
}

GradingGroup[] chosen = [.. all.Where(g => options.Groups.Count == 0 || options.Groups.Contains(g.Name)).Where(g => !options.IsSelfCheck || g.IsOfScenarios)];
if (options.IsSelfCheck)
{
    GradedRun.NewDetector = scenario => new KnowingDetector(scenario);
}

var workers = new Workers(options.Workers);
var sections = new List<(string Title, IReadOnlyList<FigureRow> Rows)>();
var watch = Stopwatch.StartNew();
foreach (GradingGroup group in chosen)
{
    long begin = watch.ElapsedMilliseconds;
    sections.Add((group.Title, group.Run(options, workers)));
    Console.Error.WriteLine(FormattableString.Invariant($"{group.Name}: {(watch.ElapsedMilliseconds - begin) / 1000.0:0.0} s"));
}

string text = MarkdownReport.Write(options, sections);
if (options.OutFile is string file)
{
    // Whole or not at all.
    string draft = file + ".part";
    File.WriteAllText(draft, text);
    File.Move(draft, file, overwrite: true);
    Console.Error.WriteLine($"written to {file}");
}
else
{
    Console.Out.Write(text);
}

// A figure that is not met is a result; in a check of this program it is a mistake.
return options.IsSelfCheck && sections.Any(s => s.Rows.Any(r => r.Verdict is not ("met" or "reported"))) ? 1 : 0;
