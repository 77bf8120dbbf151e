// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.Detection.Tests.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What fixed point cost the heart rate by spectrum on one record.</summary>
/// <param name="Input">Input of the transform [sums of codes].</param>
/// <param name="Windows">Windows after the first 20 s.</param>
/// <param name="OtherPeak">Windows in which the rates are more than 0.1 bpm apart: one of both looked at another bin.</param>
/// <param name="RateBpm">Rate in the others [bpm].</param>
/// <param name="MarginBits">How far ahead, in all windows [log2].</param>
/// <param name="OtherTrust">Windows that only one of both would show.</param>
/// <param name="OtherShown">Windows that both would show, with rates more than a bin, 3 bpm, apart.</param>
/// <param name="FixedBpm">Mean absolute error of the shown rates of the stage [bpm]; not a number without a truth.</param>
/// <param name="TwinBpm">Of the twin [bpm].</param>
internal readonly record struct SpectrumCosts(
    StageCost Input, int Windows, int OtherPeak, StageCost RateBpm, StageCost MarginBits, int OtherTrust, int OtherShown, double FixedBpm, double TwinBpm)
{
    /// <summary>Both on the light that the canceller leaves and on what it took off: each gets the same whole numbers.</summary>
    public static SpectrumCosts Of(int[] light, int[] artefact, int rateHz, Func<double, double> bpmAt)
    {
        var probe = default(InputProbe);
        probe.Values = [];
        var stage = new PulseSpectrum();
        stage.Start(rateHz);
        var ours = new List<SpectrumWindow>();
        for (int i = 0; i < light.Length; i++)
        {
            if (stage.Next(light[i], artefact[i], ref probe))
            {
                // The quality is a quarter of the margin, which comes in steps of eight: up to 1020 it is the margin.
                ours.Add(new SpectrumWindow(i, stage.RateMilliBpm / 1000.0, 4 * stage.Quality));
            }
        }

        var twin = new PulseSpectrumTwin(rateHz);
        var theirs = new List<SpectrumWindow>();
        for (int i = 0; i < light.Length; i++)
        {
            if (twin.Next(light[i], artefact[i]) is (double bpm, double margin))
            {
                theirs.Add(new SpectrumWindow(i, bpm, margin));
            }
        }

        return Compare(StageCost.Of([.. probe.Values], [.. twin.Inputs]), ours, theirs, rateHz, bpmAt);
    }

    /// <summary>The light after the stage's canceller, and what it took off.</summary>
    public static (int[] Light, int[] Artefact) Cancelled(int[] light, int[][] codes, int lightHz, int accelHz)
    {
        var reference = default(MovementReference);
        var canceller = default(Canceller);
        reference.Start(accelHz, Artefacts.CodesPerG);
        canceller.Start(lightHz, accelHz);
        NoProbe probe = default;
        var output = new int[light.Length];
        int next = 0;
        for (int i = 0; i < light.Length; i++)
        {
            for (; next < codes.Length && (long)next * lightHz < (long)i * accelHz; next++)
            {
                reference.Next(codes[next][0], codes[next][1], codes[next][2]);
            }

            output[i] = canceller.Next(light[i], reference, ref probe);
        }

        return (output, [.. light.Zip(output, (a, b) => a - b)]);
    }

    /// <summary>Mean absolute error of the rates that are shown after 20 s [bpm]; the reading is about 4 s before.</summary>
    public static double ErrorBpm(IEnumerable<SpectrumWindow> windows, int rateHz, Func<double, double> bpmAt)
    {
        double[] errors = [.. windows.Where(w => w.IsTrusted && w.Sample > 20 * rateHz).Select(w => Math.Abs(w.Bpm - bpmAt(((w.Sample + 1.0) / rateHz) - 4)))];
        return errors.Length == 0 ? double.NaN : errors.Average();
    }

    private static SpectrumCosts Compare(StageCost input, List<SpectrumWindow> ours, List<SpectrumWindow> theirs, int rateHz, Func<double, double> bpmAt)
    {
        (SpectrumWindow Ours, SpectrumWindow Theirs)[] pairs = [.. ours.Zip(theirs).Where(p => p.First.Sample == p.Second.Sample && p.First.Sample > 20 * rateHz)];
        (SpectrumWindow Ours, SpectrumWindow Theirs)[] same = [.. pairs.Where(p => Math.Abs(p.Ours.Bpm - p.Theirs.Bpm) <= 0.1)];
        return new SpectrumCosts(
            input,
            pairs.Length,
            pairs.Length - same.Length,
            StageCost.Of([.. same.Select(p => p.Ours.Bpm)], [.. same.Select(p => p.Theirs.Bpm)]),
            StageCost.Of([.. pairs.Select(p => MarginOf(p.Ours) / 256)], [.. pairs.Select(p => MarginOf(p.Theirs) / 256)]),
            pairs.Count(p => p.Ours.IsTrusted != p.Theirs.IsTrusted),
            pairs.Count(p => p.Ours.IsTrusted && p.Theirs.IsTrusted && Math.Abs(p.Ours.Bpm - p.Theirs.Bpm) > 3),
            ErrorBpm(ours, rateHz, bpmAt),
            ErrorBpm(theirs, rateHz, bpmAt));
    }

    private static double MarginOf(SpectrumWindow window) => Math.Min(1020, window.Margin);

    private struct InputProbe : IProbe
    {
        public List<double> Values;

        public readonly void See(ProbePoint point, int value) => Values.Add(value);
    }
}
