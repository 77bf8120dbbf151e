// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Movement;

/// <summary>White noise of an axis behind its one-pole low-pass, sampled.</summary>
/// <remarks>
/// Variance = density² × π / 2 × bandwidth, the equivalent noise bandwidth of one pole (textbook), at any rate: what lies above half the rate
/// folds. Neighbouring samples are correlated by e^(−2π · bandwidth · T), which one recurrence gives exactly (Ornstein and Uhlenbeck 1930).
/// </remarks>
internal sealed class AxisNoise
{
    private const int Chunk = 256;
    private readonly KeyedRandom _random;
    private readonly double _keep;
    private readonly double _new;
    private double _state;

    /// <summary>Creates the noise.</summary>
    /// <param name="random">Its source; draw i belongs to sample i.</param>
    /// <param name="bandwidthHz">Bandwidth of the low-pass [Hz], above 0.</param>
    /// <param name="grid">Sampling instants.</param>
    public AxisNoise(KeyedRandom random, double bandwidthHz, SampleGrid grid)
    {
        _random = random;
        double twice = 4 * Math.PI * bandwidthHz * grid.StepSeconds;
        _keep = PortableMath.Exp(-0.5 * twice);
        _new = Math.Sqrt(1 - PortableMath.Exp(-twice));
    }

    /// <summary>Root mean square of the noise over its density [√Hz].</summary>
    /// <param name="bandwidthHz">Bandwidth of the low-pass [Hz].</param>
    public static double RootBandwidth(double bandwidthHz) => Math.Sqrt(0.5 * Math.PI * bandwidthHz);

    /// <summary>Adds the noise.</summary>
    /// <param name="buffer">Element i gets the noise of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="rms">Its root mean square; with 0 it goes on unseen.</param>
    public void Add(Span<double> buffer, long firstIndex, double rms)
    {
        Span<double> draws = stackalloc double[Chunk];
        for (int done = 0; done < buffer.Length; done += Chunk)
        {
            Span<double> target = buffer.Slice(done, Math.Min(Chunk, buffer.Length - done));
            Span<double> normal = draws[..target.Length];
            normal.Clear();
            _random.AddNormals(normal, firstIndex + done, 1);
            double state = _state;
            for (int i = 0; i < target.Length; i++)
            {
                // Sample 0 is drawn from the whole distribution: the noise has always been there.
                state = firstIndex + done + i == 0 ? normal[i] : (_keep * state) + (_new * normal[i]);
                target[i] += rms * state;
            }

            _state = state;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AxisNoise Copy() => (AxisNoise)MemberwiseClone();
}
