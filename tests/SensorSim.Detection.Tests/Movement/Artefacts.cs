// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Light that moves with a gait by ways that the canceller does not know, made with doubles at 1600 Hz.</summary>
internal static class Artefacts
{
    /// <summary>Codes of the acceleration for 1 g.</summary>
    public const int CodesPerG = 1000;

    /// <summary>Light of a level of 200,000 codes with an artefact of some 3000 codes rms and nothing else.</summary>
    /// <param name="way">From movement to light: "pole 2 Hz" and the like, "two poles 3 Hz", "delay 60 ms".</param>
    /// <param name="lightHz">Rate of the light [Hz]; a part of 1600, or not.</param>
    /// <param name="durationS">Duration [s].</param>
    /// <param name="codes">Acceleration in codes.</param>
    /// <param name="accelHz">Rate of the acceleration [Hz].</param>
    /// <param name="size">Times all of the light.</param>
    /// <param name="seed">Of the gait.</param>
    public static int[] Make(string way, int lightHz, double durationS, out int[][] codes, int accelHz, double size = 1, int seed = 5020)
    {
        // 1600 Hz is a multiple of all the rates here.
        const int FineHz = 1600;
        double[][] fine = new Gait { Seed = seed }.Make(durationS, FineHz);
        codes = [.. Enumerable.Range(0, (int)(durationS * accelHz)).Select(i => Gait.Codes(fine[(int)((long)i * FineHz / accelHz)], CodesPerG))];
        double hz = way.Contains("Hz", StringComparison.Ordinal) ? double.Parse(way.Split(' ')[^2], CultureInfo.InvariantCulture) : 0;
        int poles = way.StartsWith("two", StringComparison.Ordinal) ? 2 : 1;
        int delay = hz == 0 ? FineHz * 60 / 1000 : 0;
        double keep = Math.Exp(-2 * Math.PI * hz / FineHz);
        double first = 0;
        double second = 0;
        var light = new List<int>();
        for (int i = 0; i < fine.Length; i++)
        {
            double[] g = fine[Math.Max(0, i - delay)];
            double drive = (0.6 * g[0]) + g[2] - (0.3 * g[1]);
            first = hz == 0 ? drive : (keep * first) + ((1 - keep) * drive);
            second = (keep * second) + ((1 - keep) * first);
            if ((long)i * lightHz % FineHz < lightHz)
            {
                light.Add((int)(200_000 * size) + (int)Math.Round(8000 * size * (poles == 2 ? second : first)));
            }
        }

        return [.. light];
    }

    /// <summary>A pulse from 100 to 128 bpm beside an artefact at 1.9 steps a second, over three times its rms; light at 100 Hz, acceleration at 50 Hz.</summary>
    /// <param name="unexplained">Rms of an artefact that nobody measured, in that of the other.</param>
    /// <param name="durationS">Duration [s].</param>
    /// <param name="seed">Of the gait; 34 more is that of what nobody measured.</param>
    public static (int[] Light, int[][] Codes, Func<double, double> BpmAt) Crossing(double unexplained, double durationS, int seed = 5020)
    {
        int[] artefact = Make("pole 2 Hz", 100, durationS, out int[][] codes, 50, 1, seed);
        double[][] other = new Gait { Seed = seed + 34, CadenceHz = 1.88 }.Make(durationS, 100);
        double rms = Math.Sqrt(artefact.Average(a => Math.Pow(a - 200_000, 2)));
        double keep = Math.Exp(-2 * Math.PI * 2 / 100);
        double state = 0;
        var unmeasured = new double[artefact.Length];
        for (int i = 0; i < artefact.Length; i++)
        {
            state = (keep * state) + ((1 - keep) * ((0.6 * other[i][0]) + other[i][2]));
            unmeasured[i] = state;
        }

        double otherRms = Math.Sqrt(unmeasured.Average(u => u * u));

        // Pulse of rms 1/3: two lines, as smooth as the light at a wrist.
        double phase = 0;
        var light = new int[artefact.Length];
        for (int i = 0; i < light.Length; i++)
        {
            double t = i / 100.0;
            phase += 2 * Math.PI * (100 + (28 * t / durationS)) / 60 / 100;
            double pulse = rms * 0.33 * Math.Sqrt(2) * (Math.Sin(phase) + (0.4 * Math.Sin((2 * phase) + 0.7)));
            light[i] = artefact[i] + (int)Math.Round((unexplained * rms * unmeasured[i] / otherRms) - pulse);
        }

        return (light, codes, t => 100 + (28 * t / durationS));
    }
}
