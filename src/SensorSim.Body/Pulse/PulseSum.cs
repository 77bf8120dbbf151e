// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The arterial pulse near one beat: its own components and those of earlier beats that have not died away.</summary>
internal sealed class PulseSum
{
    // Ten beats of three components outlast the longest component at the fastest rate.
    public const int Beats = 12;

    private readonly PulseWave[] _waves = new PulseWave[PulseBeat.Count * Beats];
    private int _earlier;
    private int _count;

    /// <summary>Starts a sum for a new beat: forgets everything.</summary>
    public void Clear()
    {
        _earlier = 0;
        _count = 0;
    }

    /// <summary>Takes an earlier beat's components, as far as they are still alive.</summary>
    public void AddEarlier(in PulseBeat beat, double aliveAtSeconds)
    {
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            if (beat[i].CutSeconds > aliveAtSeconds)
            {
                _waves[_earlier++] = beat[i];
            }
        }

        _count = _earlier;
    }

    /// <summary>Sets the beat's own components.</summary>
    public void SetOwn(in PulseBeat beat)
    {
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            _waves[_earlier + i] = beat[i];
        }

        _count = _earlier + PulseBeat.Count;
    }

    /// <summary>The pulse and its derivatives at a time.</summary>
    public PulsePoint At(double seconds)
    {
        PulsePoint point = default;
        for (int i = 0; i < _count; i++)
        {
            _waves[i].Accumulate(seconds, ref point);
        }

        return point;
    }
}
