// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Movement;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Light with pulses and an artefact that the tests' own gait made, and the acceleration.</summary>
internal static class MovementRecord
{
    public const int CodesPerG = Artefacts.CodesPerG;

    /// <summary>Light, its pulses alone about the same level, and the codes of the acceleration.</summary>
    public static (int[] Light, int[] Pulse, int[][] Codes) Make(string way, int lightHz, int accelHz, double durationS, double size, int seed = 5020)
    {
        int[] artefact = Artefacts.Make(way, lightHz, durationS, out int[][] codes, accelHz, size, seed);
        int[] pulse = new SyntheticPulse { RateHz = lightHz, BeatS = 0.83, AmplitudeCodes = 1500 * size }.Make(durationS, 1);
        return ([.. artefact.Zip(pulse, (a, p) => a + p)], pulse, codes);
    }

    /// <summary>Power of the artefact before over that left, from a sample on [dB]; levels aside.</summary>
    public static double Attenuation(int[] light, int[] pulse, IReadOnlyList<double> output, int from)
    {
        double[] before = [.. light.Skip(from).Zip(pulse.Skip(from), (a, b) => (double)(a - b))];
        double[] after = [.. output.Skip(from).Zip(pulse.Skip(from), (a, b) => a - b)];
        return 10 * Math.Log10(Power(before) / Power(after));
    }

    private static double Power(double[] values)
    {
        double mean = values.Average();
        return values.Average(v => (v - mean) * (v - mean));
    }
}
