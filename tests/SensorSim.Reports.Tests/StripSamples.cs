// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SensorSim.Signals.Marks;

namespace SensorSim.Reports.Tests;

/// <summary>Made-up rhythms with the look of the real ones; shapes and numbers stand for nothing.</summary>
internal static class StripSamples
{
    private const double ArrivalS = 0.22;
    private const double LightLevel = 182_000;

    /// <summary>A regular rhythm of one class.</summary>
    internal static StripPanel Even(double seconds = 30, double rrS = 0.83, BeatClass beat = BeatClass.Normal) =>
        Of(seconds, [.. Times(0.4, seconds, rrS).Select(t => new StripBeat(t, beat))]);

    /// <summary>Sinus rhythm with a premature beat of either kind, a run, an escape, a paced stretch, and P waves without a beat.</summary>
    internal static StripPanel Mixed()
    {
        StripBeat[] beats =
        [
            .. Some(BeatClass.Normal, 0.4, 1.23, 2.06), new(2.6, BeatClass.VentricularPremature), .. Some(BeatClass.Normal, 3.7, 4.53),
            new(5.05, BeatClass.AtrialPremature), .. Some(BeatClass.Normal, 5.95, 6.78, 7.61),
            .. Some(BeatClass.VentricularRun, 8.1, 8.46, 8.82, 9.18, 9.54, 9.9), .. Some(BeatClass.Normal, 10.9, 11.75, 12.6),
            .. Some(BeatClass.JunctionalEscape, 14.2, 15.6), new(17.3, BeatClass.VentricularEscape), .. Some(BeatClass.Normal, 18.5, 19.35),
            .. Times(20.3, 29.9, 0.86).Select(t => new StripBeat(t, BeatClass.Paced)),
        ];
        double[] blocked = [13.3, 14.15, 15.0, 15.9, 16.7];
        double[] spikes = [.. beats.Where(beat => beat.Class == BeatClass.Paced).Select(beat => beat.TimeS - 0.06)];
        return Of(30, beats, blocked, spikes, noPulse: [2.6, 8.46, 9.18, 9.9]);
    }

    internal static StripPanel Of(
        double seconds, StripBeat[] beats, double[]? blockedP = null, double[]? spikes = null, double[]? noPulse = null, double rateHz = 250)
    {
        double[] blocked = blockedP ?? [];
        double[] paced = spikes ?? [];
        double[] silent = noPulse ?? [];
        double[] times = Grid(rateHz, seconds);
        double[] lightTimes = Grid(100, seconds);
        double[] feet = [.. beats.Select(beat => beat.TimeS).Except(silent).Select(t => t + ArrivalS).Where(t => t < seconds)];
        double[] mv = Array.ConvertAll(times, t => (0.015 * Math.Sin(97 * t)) + (0.03 * Math.Sin(1.6 * t)));
        foreach (StripBeat beat in beats)
        {
            AddBeat(times, mv, beat);
        }

        foreach (double time in blocked)
        {
            AddBell(times, mv, time, 0.025, 0.12);
        }

        foreach (double time in paced)
        {
            AddBell(times, mv, time, 0.002, 1.6);
        }

        double[] light = Array.ConvertAll(lightTimes, t => LightLevel + (90 * Math.Sin(1.6 * t)) + (15 * Math.Sin(61 * t)));
        foreach (double foot in feet)
        {
            AddBell(lightTimes, light, foot + 0.16, 0.055, -1500);
            AddBell(lightTimes, light, foot + 0.36, 0.09, -650);
        }

        return new StripPanel
        {
            EndS = seconds,
            EcgTimesS = times,
            EcgMv = mv,
            LightTimesS = lightTimes,
            Light = light,
            Beats = beats,
            BlockedPTimesS = blocked,
            SpikeTimesS = paced,
            FootTimesS = feet,
            NoPulseTimesS = silent,
        };
    }

    private static void AddBeat(double[] times, double[] mv, StripBeat beat)
    {
        double t = beat.TimeS;
        bool isWide = beat.Class is BeatClass.VentricularPremature or BeatClass.VentricularRun or BeatClass.VentricularEscape or BeatClass.Paced;
        if (isWide)
        {
            AddBell(times, mv, t, 0.035, 1.7);
            AddBell(times, mv, t + 0.09, 0.03, -0.5);
            AddBell(times, mv, t + 0.27, 0.06, -0.45);
            return;
        }

        if (beat.Class is BeatClass.Normal or BeatClass.AtrialPremature)
        {
            AddBell(times, mv, t - 0.16, 0.025, 0.12);
        }

        AddBell(times, mv, t - 0.03, 0.009, -0.12);
        AddBell(times, mv, t, 0.011, 1.15);
        AddBell(times, mv, t + 0.03, 0.01, -0.22);
        AddBell(times, mv, t + 0.28, 0.05, 0.3);
    }

    private static void AddBell(double[] times, double[] values, double at, double width, double height)
    {
        for (int i = 0; i < times.Length; i++)
        {
            double z = (times[i] - at) / width;
            values[i] += Math.Abs(z) > 6 ? 0 : height * Math.Exp(-0.5 * z * z);
        }
    }

    private static StripBeat[] Some(BeatClass beat, params double[] times) => Array.ConvertAll(times, t => new StripBeat(t, beat));

    private static IEnumerable<double> Times(double from, double to, double step) =>
        Enumerable.Range(0, Math.Max(0, (int)Math.Ceiling((to - from) / step))).Select(i => from + (i * step));

    private static double[] Grid(double rateHz, double seconds) =>
        [.. Enumerable.Range(0, (int)(rateHz * seconds)).Select(i => i / rateHz)];
}
