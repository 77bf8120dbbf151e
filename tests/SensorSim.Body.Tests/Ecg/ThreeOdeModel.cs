// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Tests.Ecg;

/// <summary>
/// The dynamical model of McSharry, Clifford, Tarassenko and Smith, IEEE Trans Biomed Eng 50:289-294, 2003: three differential equations,
/// parameters of their Table I, constant RR interval, no baseline, no rate scaling, fourth-order Runge-Kutta at 1 ms. Shares nothing
/// with the code under test.
/// </summary>
internal sealed class ThreeOdeModel
{
    /// <summary>Angles [rad], factors and widths [rad] of P, Q, R, S, T.</summary>
    public static readonly (double Angle, double Factor, double Width)[] TableOne =
    [
        (-Math.PI / 3, 1.2, 0.25), (-Math.PI / 12, -5, 0.1), (0, 30, 0.1), (Math.PI / 12, -7.5, 0.1), (Math.PI / 2, 0.75, 0.4),
    ];

    private const int PerSecond = 1000;
    private readonly double _omega;

    /// <summary>Runs six beats and keeps the last one, from the angle −π on.</summary>
    public ThreeOdeModel(double rateBpm)
    {
        _omega = 2 * Math.PI * rateBpm / 60;
        double[] state = [-1, 0, 0];
        int perBeat = (int)Math.Round(PerSecond * 60 / rateBpm);
        for (int i = 0; i < 5 * perBeat; i++)
        {
            Step(state, 1.0 / PerSecond);
        }

        Z = new double[perBeat];
        for (int i = 0; i < perBeat; i++)
        {
            Z[i] = state[2];
            Step(state, 1.0 / PerSecond);
        }

        RIndex = Array.IndexOf(Z, Z.Max());
    }

    /// <summary>One beat, raw.</summary>
    public double[] Z { get; }

    /// <summary>Where R stands in it.</summary>
    public int RIndex { get; }

    /// <summary>The paper's linear map of the whole record to −0.4 to 1.2 mV.</summary>
    public double Millivolts(double z) => -0.4 + (1.6 * (z - Z.Min()) / (Z.Max() - Z.Min()));

    /// <summary>Time after R [ms] and value [mV] of the extreme between two times after R [ms].</summary>
    public (double Ms, double Mv) Extreme(int fromMs, int toMs, bool isMaximum)
    {
        int best = Enumerable.Range(fromMs, toMs - fromMs).MaxBy(ms => isMaximum ? Z[RIndex + ms] : -Z[RIndex + ms]);
        return (best, Millivolts(Z[RIndex + best]));
    }

    private void Step(double[] s, double h)
    {
        double[] k1 = Slope(s);
        double[] k2 = Slope(Along(s, k1, h / 2));
        double[] k3 = Slope(Along(s, k2, h / 2));
        double[] k4 = Slope(Along(s, k3, h));
        for (int i = 0; i < 3; i++)
        {
            s[i] += h / 6 * (k1[i] + (2 * k2[i]) + (2 * k3[i]) + k4[i]);
        }
    }

    private static double[] Along(double[] s, double[] k, double h) => [s[0] + (h * k[0]), s[1] + (h * k[1]), s[2] + (h * k[2])];

    private double[] Slope(double[] s)
    {
        double alpha = 1 - Math.Sqrt((s[0] * s[0]) + (s[1] * s[1]));
        double theta = Math.Atan2(s[1], s[0]);
        double z = -s[2];
        foreach ((double angle, double factor, double width) in TableOne)
        {
            double d = Math.IEEERemainder(theta - angle, 2 * Math.PI);
            z -= factor * d * Math.Exp(-d * d / (2 * width * width));
        }

        return [(alpha * s[0]) - (_omega * s[1]), (alpha * s[1]) + (_omega * s[0]), z];
    }
}
