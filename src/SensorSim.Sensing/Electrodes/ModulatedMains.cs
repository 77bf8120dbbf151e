// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Fundamental and two harmonics of the mains on the ECG's grid, times 1 + depth × sin of a slow phase.</summary>
internal sealed class ModulatedMains
{
    private const int Piece = 64;

    private readonly SampleGrid _grid;
    private readonly RotationGroup _mains;
    private readonly Rotation _swell;

    /// <summary>Creates the sines.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="mains">Phase of the mains.</param>
    public ModulatedMains(KeyValues values, ulong seed, SampleGrid grid, WanderingPhase mains)
    {
        _grid = grid;
        _mains = new RotationGroup(mains, [1, 2, 3]);

        // The limits of the wander play no part: it is 0.
        _swell = new Rotation(new WanderingPhase(new KeyedRandom(seed, "mains.modulation"), values[MainsKeys.ModulationHz], 0, 0.0017, 0.033), 1);
    }

    private ModulatedMains(ModulatedMains other)
    {
        _grid = other._grid;
        _mains = other._mains.Copy();
        _swell = other._swell.Copy();
    }

    /// <summary>Adds the mains to samples.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="sine">Factors of the sines.</param>
    /// <param name="cosine">Factors of the cosines.</param>
    /// <param name="depth">Depth of the modulation, 0 to 1.</param>
    public void Add(Span<double> buffer, long firstIndex, Vector256<double> sine, Vector256<double> cosine, double depth)
    {
        if (depth == 0)
        {
            _mains.Add(buffer, _grid, firstIndex, sine, cosine);
            return;
        }

        Span<double> wave = stackalloc double[Piece];
        Span<double> swell = stackalloc double[Piece];
        for (int done = 0; done < buffer.Length; done += Piece)
        {
            Span<double> part = buffer[done..Math.Min(buffer.Length, done + Piece)];
            wave.Clear();
            swell.Clear();
            _mains.Add(wave[..part.Length], _grid, firstIndex + done, sine, cosine);
            _swell.Add(swell[..part.Length], _grid, firstIndex + done, depth, 0);
            for (int i = 0; i < part.Length; i++)
            {
                part[i] += wave[i] * (1 + swell[i]);
            }
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public ModulatedMains Copy() => new(this);
}
