// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Running;

namespace SensorSim.Grading.Groups;

/// <summary>Tall T waves: how high one may be before it is counted, or beats are lost.</summary>
/// <remarks>
/// After the test of IEC 60601-2-27 (from secondary sources): QRS of 1 mV and 100 ms, 80 bpm, T wave of 180 ms, QT 350 ms, T up to
/// 1.2 mV must not be counted. A minute at 250 Hz without noise, scored from 10 s on.
/// </remarks>
internal sealed class TallTGroup : GradingGroup
{
    private const int RateHz = 250;
    private const double DurationS = 60;
    private const double IntervalS = 0.75;
    private const int StepUv = 100;
    private const int LargestUv = 3000;
    private const long Second = 1_000_000_000;

    /// <inheritdoc/>
    public override string Name => "tall-t";

    /// <inheritdoc/>
    public override bool IsOfScenarios => false;

    /// <inheritdoc/>
    public override string Title => "Tall T waves";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers) =>
    [
        Row("triangular QRS, T wave half a sine", workers, (t, width) => Math.Max(0, 1 - Math.Abs(2 * t / width)), (t, width) => Math.Abs(t) < width / 2 ? Math.Cos(Math.PI * t / width) : 0),
        Row("Gaussian QRS and T wave (lengths six standard deviations)", workers, Gaussian, Gaussian),
    ];

    private static double Gaussian(double t, double width) => Math.Exp(-18 * t * t / (width * width));

    private static FigureRow Row(string words, Workers workers, Func<double, double, double> qrs, Func<double, double, double> tWave)
    {
        int[] heights = [.. Enumerable.Range(0, (LargestUv / StepUv) + 1).Select(i => i * StepUv)];
        bool[] areRight = workers.ForEach(heights, uv => IsRight(uv * 1e-3, qrs, tWave));
        int right = areRight.TakeWhile(r => r).Count();
        double? tolerated = right == 0 ? null : heights[right - 1] * 1e-3;
        string measured = tolerated is null
            ? "beats are missed or added even without a T wave"
            : FormattableString.Invariant($"{(right == heights.Length ? "at least " : "")}{tolerated:0.0} mV");
        return new Judge().AtLeast("largest T wave tolerated", tolerated ?? 0, 1.2, "mV").Row(words, measured);
    }

    private static bool IsRight(double tMillivolts, Func<double, double, double> qrs, Func<double, double, double> tWave)
    {
        var codes = new int[(int)(DurationS * RateHz)];
        var truth = new EventRing<TruthEvent>(256);
        for (int beat = 0; ((beat + 1) * IntervalS) + 0.5 < DurationS; beat++)
        {
            // Not the same phase of the samples at every beat.
            double r = (beat + 1) * IntervalS + (beat % 7 * 0.0005);
            truth.Add(new TruthEvent(Signals.Streams.ChannelName.Ecg, MarkKind.RPeak, (long)(r * 1e9), 1, beat, BeatClass.Normal, TruthFlags.None));
            for (int i = (int)((r - 0.2) * RateHz); i < Math.Min(codes.Length, (int)((r + 0.6) * RateHz)); i++)
            {
                // The T wave ends 350 ms after the QRS begins, 50 ms before R.
                double t = ((double)i / RateHz) - r;
                codes[i] += (int)Math.Round(1000 * (qrs(t, 0.1) + (tMillivolts * tWave(t - 0.21, 0.18))));
            }
        }

        var stream = new ArrayStream(codes, RateHz);
        using var detector = new LibraryDetector();
        var scorer = new Scorer(stream.Format, (long)(DurationS * Second), new ScoringOptions { LeadInNs = 10 * Second });
        EventScore score = new Runner(stream, truth, detector, scorer).Run().Report!.Scores[0];
        return score is { Missed: 0, Extra: 0, Matched: > 50 };
    }
}
