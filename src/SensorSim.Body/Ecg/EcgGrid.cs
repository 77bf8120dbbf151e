// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Draws the clean ECG on a grid of samples: the waves of the beats, and what follows no beat. No cut changes a bit.</summary>
/// <remarks>Pacing spikes are drawn by <see cref="SpikeGrid"/>: they depend on the front end, and no R peak is defined on them.</remarks>
public sealed class EcgGrid
{
    private readonly SampleGrid _grid;
    private readonly ActiveWaves<ActiveEcgWave> _waves;
    private readonly ActivityGrid[] _activity;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    public EcgGrid(BodyModel body, SampleGrid grid)
    {
        _waves = new ActiveWaves<ActiveEcgWave>(body, grid, variant: 0);
        _grid = grid;
        ReadOnlySpan<ActivityWave> waves = body.Activity.Waves;
        _activity = new ActivityGrid[waves.Length];
        for (int i = 0; i < waves.Length; i++)
        {
            _activity[i] = new ActivityGrid(waves[i]);
        }
    }

    private EcgGrid(EcgGrid other, BodyModel body)
    {
        _grid = other._grid;
        _waves = other._waves.Copy(body);
        _activity = new ActivityGrid[other._activity.Length];
        for (int i = 0; i < _activity.Length; i++)
        {
            _activity[i] = other._activity[i].Copy();
        }
    }

    /// <summary>Adds the clean voltage [mV] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before, at least 0.</param>
    public void Add(Span<double> buffer, long firstIndex)
    {
        _waves.Add(buffer, firstIndex);
        foreach (ActivityGrid activity in _activity)
        {
            activity.Add(buffer, _grid, firstIndex);
        }
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public EcgGrid Copy(BodyModel body) => new(this, body);
}
