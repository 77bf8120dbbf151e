// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Draws the clean ECG on a grid of samples: two multiplications for each wave and sample. No cut changes a bit.</summary>
public sealed class EcgGrid
{
    private readonly ActiveWaves<ActiveEcgWave> _waves;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    public EcgGrid(BodyModel body, SampleGrid grid) => _waves = new ActiveWaves<ActiveEcgWave>(body, grid, variant: 0);

    private EcgGrid(ActiveWaves<ActiveEcgWave> waves) => _waves = waves;

    /// <summary>Adds the clean voltage [mV] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Add(Span<double> buffer, long firstIndex) => _waves.Add(buffer, firstIndex);

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public EcgGrid Copy(BodyModel body) => new(_waves.Copy(body));
}
