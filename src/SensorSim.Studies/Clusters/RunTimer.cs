// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Clusters;

/// <summary>Measures what a run of a study takes, to cut it into parts of a sensible length. The rows are thrown away.</summary>
public static class RunTimer
{
    /// <summary>Median time of a run on one core [s], over runs spread over the whole study, once the code is warm.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="factories">One for each detector.</param>
    /// <param name="longest">How long to measure; at least two runs are made, the first of which only warms up.</param>
    /// <param name="cancellation">Ends it between two blocks.</param>
    public static double SecondsPerRun(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories, TimeSpan longest, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(plan);
        using var maker = new RunMaker(plan, factories);
        long begin = Stopwatch.GetTimestamp();
        maker.Make(0, cancellation);
        var spent = new List<double>();
        do
        {
            // Steps of the golden section fall everywhere alike.
            long run = (long)(spent.Count * 0.6180339887498949 % 1 * plan.RunCount);
            long from = Stopwatch.GetTimestamp();
            maker.Make(run, cancellation);
            spent.Add(Stopwatch.GetElapsedTime(from).TotalSeconds);
        }
        while (Stopwatch.GetElapsedTime(begin) < longest);

        // The compiler is at work during the first half.
        double[] warm = [.. spent.Skip(spent.Count / 2).Order()];
        return warm[warm.Length / 2];
    }
}
