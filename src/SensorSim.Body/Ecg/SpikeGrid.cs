// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Draws pacing spikes as a front end with a two-pole low-pass sees them. No cut changes a bit.</summary>
/// <remarks>
/// A spike of half a millisecond would alias if it were sampled as it is. Spikes are not part of the voltage on which R peaks and other
/// truth of the ECG are defined.
/// </remarks>
public sealed class SpikeGrid
{
    private readonly ActiveWaves<ActiveSpike> _spikes;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="cornerHz">Corner (−3 dB) of the low-pass [Hz], 0.001 to 1,000,000; taken to a whole mHz.</param>
    public SpikeGrid(BodyModel body, SampleGrid grid, double cornerHz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cornerHz, 0.001);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cornerHz, 1e6);
        _spikes = new ActiveWaves<ActiveSpike>(body, grid, (int)Math.Round(cornerHz * 1000));
    }

    private SpikeGrid(ActiveWaves<ActiveSpike> spikes) => _spikes = spikes;

    /// <summary>Whether a scenario can have spikes at all; without them there is nothing to draw.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool IsNeeded(KeyValues values) => SpikeShape.IsNeeded(values);

    /// <summary>Adds the spikes [mV] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Add(Span<double> buffer, long firstIndex) => _spikes.Add(buffer, firstIndex);

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public SpikeGrid Copy(BodyModel body) => new(_spikes.Copy(body));
}
