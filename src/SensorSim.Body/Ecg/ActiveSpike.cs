// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>A pacing spike behind a critically damped two-pole low-pass, evaluated at the sampling instants themselves.</summary>
/// <remarks>
/// The low-pass ω²/(s + ω)² answers a step with 1 − (1 + ωt)·e^(−ωt); a rectangle is one step minus another a width later. Its gain at 0 Hz
/// is 1, so the area stays height × width, and nothing aliases that the low-pass takes away. The variant is the corner (−3 dB) in mHz:
/// ω = 2π · corner / √(√2 − 1).
/// </remarks>
internal struct ActiveSpike : IActiveWave<ActiveSpike>
{
    // (1 + ωt)·e^(−ωt) is below 1e-11 from here on.
    private const double CutOmega = 29;

    private SampleGrid _grid;
    private PacingSpike _spike;
    private double _omega;

    public static int PerBeat => PacingSpikes.Count;

    public long Next { get; private set; }

    public long Last { get; private set; }

    /// <summary>ω of a corner [rad/s].</summary>
    /// <param name="cornerHz">Where the response has fallen by 3 dB [Hz].</param>
    public static double Omega(double cornerHz) => 2 * Math.PI * cornerHz / Math.Sqrt(Math.Sqrt(2.0) - 1);

    /// <summary>Response of the low-pass to a spike.</summary>
    /// <param name="spike">The spike.</param>
    /// <param name="omega">ω of the low-pass [rad/s].</param>
    /// <param name="seconds">Time [s].</param>
    /// <returns>[mV].</returns>
    public static double Response(in PacingSpike spike, double omega, double seconds) =>
        spike.Millivolts * (Step(omega * (seconds - spike.Seconds)) - Step(omega * (seconds - spike.Seconds - spike.WidthSeconds)));

    public static bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out ActiveSpike wave)
    {
        wave = default;
        PacingSpike spike = beat.Spikes[index];
        if (spike.WidthSeconds == 0 || spike.Millivolts == 0)
        {
            return false;
        }

        wave._grid = grid;
        wave._spike = spike;
        wave._omega = Omega(variant * 1e-3);
        wave.Next = grid.FirstAtOrAfter(spike.Seconds);
        wave.Last = grid.FirstAtOrAfter(spike.Seconds + spike.WidthSeconds + (CutOmega / wave._omega)) - 1;
        return wave.Last >= wave.Next;
    }

    public void SkipTo(long index) => Next = Math.Max(Next, index);

    public void Draw(Span<double> buffer)
    {
        for (int i = 0; i < buffer.Length; i++)
        {
            buffer[i] += Response(_spike, _omega, _grid.Seconds(Next + i));
        }

        Next += buffer.Length;
    }

    private static double Step(double x) => x <= 0 ? 0 : 1 - ((1 + x) * PortableMath.Exp(-x));
}
