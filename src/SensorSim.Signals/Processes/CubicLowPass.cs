// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Weights of a one-pole low-pass that is exact for the cubic through four neighbouring samples, the one after included.</summary>
/// <remarks>Output at sample n = Keep × output at n − 1 + Before × x(n − 2) + From × x(n − 1) + To × x(n) + After × x(n + 1).</remarks>
public readonly record struct CubicLowPass
{
    private const int Terms = 60;

    /// <summary>Creates the weights.</summary>
    /// <param name="cornerHz">Where the low-pass is 3 dB down [Hz], above 0.</param>
    /// <param name="stepSeconds">Time from one sample to the next [s], above 0.</param>
    public CubicLowPass(double cornerHz, double stepSeconds)
    {
        double lambda = 2 * Math.PI * cornerHz * stepSeconds;
        double m0 = Moment(lambda, 0);
        double m1 = Moment(lambda, 1);
        double m2 = Moment(lambda, 2);
        double m3 = Moment(lambda, 3);
        Keep = PortableMath.Exp(-lambda);

        // The four Lagrange polynomials through places -1, 0, 1 and 2, each weighed by the moments of the step from 0 to 1.
        Before = ((3 * m2) - m3 - (2 * m1)) / 6;
        From = (m3 - (2 * m2) - m1 + (2 * m0)) / 2;
        To = (m2 - m3 + (2 * m1)) / 2;
        After = (m3 - m1) / 6;
    }

    /// <summary>Share of the last output that is kept.</summary>
    public double Keep { get; }

    /// <summary>Weight of the sample two before.</summary>
    public double Before { get; }

    /// <summary>Weight of the sample before.</summary>
    public double From { get; }

    /// <summary>Weight of the sample itself.</summary>
    public double To { get; }

    /// <summary>Weight of the sample after.</summary>
    public double After { get; }

    /// <summary>Filters many samples, four at a time.</summary>
    /// <param name="drive">Samples: element i is the one two before <paramref name="target"/>[i]; three more than it has.</param>
    /// <param name="target">Receives the outputs; a multiple of four of them.</param>
    /// <param name="state">Output before the first.</param>
    /// <param name="gain">Factor of the samples.</param>
    public void Apply(ReadOnlySpan<double> drive, Span<double> target, double state, double gain)
    {
        drive = drive[..(target.Length + 3)];
        var before = Vector256.Create(gain * Before);
        var from = Vector256.Create(gain * From);
        var to = Vector256.Create(gain * To);
        var after = Vector256.Create(gain * After);
        var outputs = new OnePoleLanes(Keep, state);
        ref double x = ref MemoryMarshal.GetReference(drive);
        ref double y = ref MemoryMarshal.GetReference(target);
        for (nuint i = 0; i < (nuint)target.Length; i += 4)
        {
            Vector256<double> d = ((Vector256.LoadUnsafe(ref x, i) * before) + (Vector256.LoadUnsafe(ref x, i + 1) * from))
                + ((Vector256.LoadUnsafe(ref x, i + 2) * to) + (Vector256.LoadUnsafe(ref x, i + 3) * after));
            outputs.Next(d).StoreUnsafe(ref y, i);
        }
    }

    // λ ∫ e^(−λ(1−u)) u^j du over 0 to 1: by parts for large λ, by the power series (no cancellation) for small ones.
    private static double Moment(double lambda, int order)
    {
        if (lambda > 1)
        {
            double moment = 1 - PortableMath.Exp(-lambda);
            for (int j = 1; j <= order; j++)
            {
                moment = 1 - (j * moment / lambda);
            }

            return moment;
        }

        // Term k: (−λ)^k · j! / (j + k + 1)!.
        double term = 1.0 / (order + 1);
        double sum = 0;
        for (int k = 0; k < Terms; k++)
        {
            sum += term;
            term *= -lambda / (order + k + 2);
        }

        return lambda * sum;
    }
}
