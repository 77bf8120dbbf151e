// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Pulse;

/// <summary>Draws the arterial pulse on a grid of samples: no exponential in the loop. No cut changes a bit.</summary>
public sealed class PulseGrid
{
    private readonly ActiveWaves<ActivePulseWave> _waves;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="channel">Light that is drawn: red, infrared or green.</param>
    public PulseGrid(BodyModel body, SampleGrid grid, ChannelName channel) =>
        _waves = new ActiveWaves<ActivePulseWave>(body, grid, channel - ChannelName.Red);

    private PulseGrid(ActiveWaves<ActivePulseWave> waves) => _waves = waves;

    /// <summary>Adds the pulse [absorbance, natural logarithm] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Add(Span<double> buffer, long firstIndex) => _waves.Add(buffer, firstIndex);

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public PulseGrid Copy(BodyModel body) => new(_waves.Copy(body));
}
