// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Tests;

/// <summary>Truth of 200 keyed random beats of every rhythm against a search on the clean waveform down to 1 µs, within ±20 ms.</summary>
/// <remarks>Required: 10 µs. The search shares nothing with the solvers but each wave's parameters.</remarks>
public sealed class RhythmTruthTests
{
    private const double Required = 10e-6;
    private const double Reach = 0.02;
    private const int Beats = 200;

    [TestCaseSource(nameof(Beating))]
    public void RPeak_AgainstBruteForce_Within10Microseconds(string name)
    {
        foreach ((Heartbeats heart, int i, BeatView beat) in Picked(name))
        {
            EcgWave[] waves = Waves(heart.Beats, i);
            double Voltage(double t)
            {
                double value = 0;
                double slope = 0;
                double curvature = 0;
                heart.Body.Activity.Accumulate(t, ref value, ref slope, ref curvature);
                foreach (EcgWave wave in waves)
                {
                    double x = (t - wave.CentreSeconds) / wave.SigmaSeconds;
                    value += Math.Abs(x) < 9 ? wave.Millivolts * Math.Exp(-x * x / 2) : 0;
                }

                return value;
            }

            double onset = beat.Ecg[EcgBeat.Q].OnsetSeconds;
            double end = beat.Ecg[EcgBeat.S].EndSeconds;
            double level = Voltage(onset);
            double from = Math.Max(onset, beat.R.Seconds - Reach);
            double to = Math.Min(end, beat.R.Seconds + Reach);
            double found = Highest(t => Math.Abs(Voltage(t) - level), from, to);
            Assert.That(beat.R.Seconds, Is.EqualTo(found).Within(Required), $"beat {beat.BeatId}, {beat.Class}");

            // And nowhere in the QRS is there a larger one.
            double best = Math.Abs(beat.R.Millivolts - level);
            for (double t = onset; t < end; t += 1e-4)
            {
                Assert.That(Math.Abs(Voltage(t) - level), Is.LessThan(best + 1e-9), $"beat {beat.BeatId} at {t}");
            }
        }
    }

    [TestCaseSource(nameof(Beating))]
    public void Pulse_AgainstBruteForce_Within10Microseconds(string name)
    {
        int checkedPulses = 0;
        foreach ((Heartbeats heart, int i, BeatView beat) in Picked(name))
        {
            PulseLandmarks p = beat.Landmarks;
            if (!p.HasFoot)
            {
                continue;
            }

            int first = Math.Max(0, i - 24);
            var waves = new DirectWaves(heart.Beats.GetRange(first, i + 1 - first).Where(b => b.IsBeat));
            double Value(double t) => waves.Pulse(t);
            double Slope(double t) => (Value(t + 1e-4) - Value(t - 1e-4)) / 2e-4;
            string where = $"beat {beat.BeatId}, {beat.Class}, filling {beat.Filling}";
            double start = beat.Pulse[0].StartSeconds;

            // Where nothing of earlier pulses is left the minimum is the start itself: nothing lies below it.
            double middle = 0.5 * (p.FootMinimumSeconds + p.SteepestSeconds);
            // The minimum may be the notch of the pulse before, earlier than the own start.
            double from = p.FootMinimumSeconds < start ? p.FootMinimumSeconds - Reach : Math.Max(p.FootMinimumSeconds - Reach, start - 1e-3);
            double low = Highest(t => -Value(t), from, Math.Min(p.FootMinimumSeconds + Reach, middle));
            Assert.That(Value(low), Is.EqualTo(Value(p.FootMinimumSeconds)).Within(1e-9), where);
            double steepest = Highest(Slope, p.SteepestSeconds - Reach, p.SteepestSeconds + Reach);
            Assert.That(p.SteepestSeconds, Is.EqualTo(steepest).Within(Required), where);
            double tangent = steepest + ((Value(low) - Value(steepest)) / Slope(steepest));
            Assert.That(p.FootTangentSeconds, Is.EqualTo(tangent).Within(Required), where);
            double peak = Highest(Value, p.SystolicPeakSeconds - Reach, p.SystolicPeakSeconds + Reach);
            Assert.That(p.SystolicPeakSeconds, Is.EqualTo(peak).Within(Required), where);
            Assert.That(beat.Arrival.PatSeconds, Is.EqualTo(p.FootTangentSeconds - beat.R.Seconds).Within(1e-8), where);
            checkedPulses++;
        }

        Assert.That(checkedPulses, Is.GreaterThan(Beats / 3), "pulses with a foot");
    }

    // No beat, no truth: these two are in the list for the other tests.
    private static IEnumerable<string> Beating => RhythmCases.Names.Where(n => n is not ("asystole" or "ventricular_fibrillation"));

    // Beats of as many seeds as it takes; 200 keyed ones of them.
    private static IEnumerable<(Heartbeats Heart, int Place, BeatView Beat)> Picked(string name)
    {
        var draws = new KeyedRandom(5, "tests.rhythm_truth");
        for (ulong seed = 0; seed < 4; seed++)
        {
            var heart = new Heartbeats(RhythmCases.Values(name), seed, 400);
            int[] beats = [.. Enumerable.Range(6, Math.Max(0, heart.Beats.Count - 14)).Where(i => heart.Beats[i].IsBeat)];
            Assert.That(beats, Has.Length.GreaterThan(50));
            for (int n = 0; n < Beats / 4; n++)
            {
                int i = beats[(int)(draws.Uniform(n) * beats.Length)];
                yield return (heart, i, heart.Beats[i]);
            }
        }
    }

    private static EcgWave[] Waves(List<BeatView> beats, int i)
    {
        double r = beats[i].Seconds;
        return [.. beats.Where(b => Math.Abs(b.Seconds - r) < 3).SelectMany(b => Enumerable.Range(0, EcgBeat.Count).Select(w => b.Ecg[w])).Where(w => w.Millivolts != 0)];
    }

    // In steps of 20 µs, then of 1 µs round the best of them.
    private static double Highest(Func<double, double> value, double from, double to)
    {
        double best = Best(value, from, to, 20e-6);
        return Best(value, Math.Max(from, best - 25e-6), Math.Min(to, best + 25e-6), 1e-6);
    }

    private static double Best(Func<double, double> value, double from, double to, double step)
    {
        double best = from;
        double highest = double.MinValue;
        for (int n = 0; n <= (to - from) / step; n++)
        {
            double t = from + (n * step);
            double here = value(t);
            if (here > highest)
            {
                highest = here;
                best = t;
            }
        }

        return best;
    }
}
