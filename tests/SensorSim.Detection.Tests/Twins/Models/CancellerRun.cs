// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>How a canceller with rounded words did on one record of 90 s, light at 100 Hz, acceleration at 50 Hz.</summary>
/// <param name="AttenuationDb">How far the artefact was taken down after 30 s [dB].</param>
/// <param name="ErrorCodes">Rms of its output's difference from that of doubles after 30 s [codes]; the pulses are 1500 high.</param>
internal readonly record struct CancellerRun(double AttenuationDb, double ErrorCodes)
{
    private const int LightHz = 100;
    private const int AccelHz = 50;

    /// <summary>A word of so many bits, the sign counted.</summary>
    public static TwinWords Words(int bits) => new() { StateBits = bits, FullScale = 1 };

    /// <summary>Runs it.</summary>
    /// <param name="way">The way from movement to light.</param>
    /// <param name="functions">Words of the reference, ±64 g.</param>
    /// <param name="weights">Words of the weights, ±1024 codes for 1/16384 g.</param>
    public static CancellerRun Of(string way, in TwinWords functions, in TwinWords weights)
    {
        (int[] light, int[] pulse, int[][] codes) = MovementRecord.Make(way, LightHz, AccelHz, 90, 1);
        double[] exact = Output(light, codes, default, default);
        double[] rounded = Output(light, codes, functions, weights);
        const int From = 30 * LightHz;
        return new CancellerRun(
            MovementRecord.Attenuation(light, pulse, rounded, From),
            Math.Sqrt(exact.Zip(rounded, (a, b) => (a - b) * (a - b)).Skip(From).Average()));
    }

    private static double[] Output(int[] light, int[][] codes, in TwinWords functions, in TwinWords weights)
    {
        var reference = new MovementReferenceTwin(AccelHz, MovementRecord.CodesPerG, functions);
        var canceller = new CancellerTwin(LightHz, AccelHz, weights);
        var output = new double[light.Length];
        int next = 0;
        for (int i = 0; i < output.Length; i++)
        {
            for (; next < codes.Length && next * LightHz < i * AccelHz; next++)
            {
                reference.Next(codes[next][0], codes[next][1], codes[next][2]);
            }

            output[i] = canceller.Next(light[i], reference);
        }

        return output;
    }
}
