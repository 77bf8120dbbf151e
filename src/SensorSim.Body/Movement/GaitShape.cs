// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Movement;

/// <summary>Walking or running as it arrives at a site, for a vertical amplitude of 1 at the cadence.</summary>
/// <remarks>
/// Lines at multiples 1, 2, 4, 6 of the stride (arm swing, step and two harmonics), and a heel strike at each step. The heel strike's own
/// part in these lines is taken off along x and z, so that the lines are those of the table. Relative sizes are choices of this project.
/// </remarks>
internal sealed class GaitShape
{
    /// <summary>Multiples of the stride with lines of their own.</summary>
    public const int Lines = 4;

    /// <summary>Time constant of a heel strike [s]; most of it lies below 20 Hz.</summary>
    public const double StrikeTauSeconds = 0.012;

    private static readonly int[] s_multiples = [1, 2, 4, 6];

    // Rows: x, y, z. Columns: sine and cosine factor for each multiple.
    private static readonly double[][] s_walking =
    [
        [0.8, 0, 0.2, 0.3, 0, 0.1, 0.05, 0],
        [0.3, 0.1, 0.1, 0, 0.05, 0, 0, 0.02],
        [0, 0.1, 1, 0, 0.2, 0.3, 0.1, 0.1],
    ];

    private static readonly double[][] s_running =
    [
        [0.6, 0, 0.25, 0.2, 0, 0.1, 0.03, 0],
        [0.25, 0.1, 0.1, 0, 0.04, 0, 0, 0.02],
        [0, 0.06, 1, 0, 0.2, 0.15, 0.06, 0.05],
    ];

    private readonly double[][] _wanted;
    private readonly double _cadenceHz;

    /// <summary>Creates a shape.</summary>
    /// <param name="site">Site of the sensor.</param>
    /// <param name="isRunning">Running in place of walking.</param>
    /// <param name="cadenceHz">Cadence at which the heel strike's part is taken off [Hz], above 0.</param>
    public GaitShape(string site, bool isRunning, double cadenceHz)
    {
        // Hands swing; trunk and head hardly do, and the head is kept stillest.
        (double swing, double walkingStrike, double runningStrike, double walkingG, double runningG) = site switch
        {
            "wrist" => (1.0, 0.3, 1.2, 0.5, 2.0),
            "chest" => (0.12, 0.25, 0.8, 0.3, 1.4),
            "ear" => (0.1, 0.15, 0.5, 0.25, 1.0),
            _ => (1.0, 0.3, 1.2, 0.4, 1.8),
        };
        AmplitudeG = isRunning ? runningG : walkingG;
        double strike = isRunning ? runningStrike : walkingStrike;
        Strike = new Axes(0.35 * strike, 0.25 * strike, strike);
        _cadenceHz = cadenceHz;
        _wanted = [.. (isRunning ? s_running : s_walking).Select(row => (double[])row.Clone())];
        _wanted[0][0] *= swing;
        Factors = [.. _wanted.Select(row => (double[])row.Clone())];
        for (int i = 1; i < Lines; i++)
        {
            StrikeLine(s_multiples[i], out double sine, out double cosine);
            Factors[0][2 * i] -= Strike.X * sine;
            Factors[0][(2 * i) + 1] -= Strike.X * cosine;
            Factors[2][2 * i] -= Strike.Z * sine;
            Factors[2][(2 * i) + 1] -= Strike.Z * cosine;
        }
    }

    /// <summary>Vertical amplitude when the scenario does not say [g].</summary>
    public double AmplitudeG { get; }

    /// <summary>Peak of the heel strike along the axes; y to alternating sides.</summary>
    public Axes Strike { get; }

    /// <summary>Sine and cosine factor for multiples 1, 2, 4, 6 of the stride; rows x, y, z.</summary>
    public double[][] Factors { get; }

    /// <summary>Line at a multiple of the stride in steady gait, heel strike included.</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    /// <param name="multiple">Multiple of the stride, above 0.</param>
    /// <param name="sine">Receives the factor of the sine.</param>
    /// <param name="cosine">Receives the factor of the cosine.</param>
    public void Line(int axis, int multiple, out double sine, out double cosine)
    {
        sine = 0;
        cosine = 0;
        int own = Array.IndexOf(s_multiples, multiple);
        if (own >= 0)
        {
            sine = _wanted[axis][2 * own];
            cosine = _wanted[axis][(2 * own) + 1];
        }

        // The same at every step: only lines of the cadence. To alternating sides: only those between.
        bool hasStrike = axis == 1 ? (multiple & 1) == 1 : (multiple & 1) == 0 && own < 0;
        if (hasStrike)
        {
            StrikeLine(multiple, out double s, out double c);
            double size = axis == 0 ? Strike.X : axis == 1 ? Strike.Y : Strike.Z;
            sine += size * s;
            cosine += size * c;
        }
    }

    // Fourier series of one strike a step: transform / step time; 2 Re for the cosine, −2 Im for the sine.
    private void StrikeLine(int multiple, out double sine, out double cosine)
    {
        Transient.Transform(multiple * 0.5 * _cadenceHz, StrikeTauSeconds, out double real, out double imaginary);
        sine = -2 * _cadenceHz * imaginary;
        cosine = 2 * _cadenceHz * real;
    }
}
