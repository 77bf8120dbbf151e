// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Everything that the library asks of its sensor: LED current and gain for the level, sleep with looks, full rate with movement.</summary>
public sealed class SensorPowerControl : ControllingDetector
{
    internal const string Word = "sensor_power";

    private readonly LevelDriver _level = new(LevelSettings.CurrentAndGain);
    private readonly PowerDriver _power = new(PowerSettings.Sleeper);
    private long _ticksPerSecond;

    /// <summary>Puts the control around a detector.</summary>
    /// <param name="inner">Gives the marks; disposed with this one.</param>
    public SensorPowerControl(IDetector inner)
        : base(inner, Word)
    {
    }

    private protected override void Begin(StreamFormat format)
    {
        _ticksPerSecond = format.Clock.TicksPerSecond;
        _level.Begin(format);
        _power.Begin(format);
    }

    private protected override void Control(SampleBlock block, EventRing<SettingsRequest> requests)
    {
        long last = SecondSlices.Last(block, _ticksPerSecond);
        for (long second = SecondSlices.First(block, _ticksPerSecond); second <= last; second++)
        {
            _level.Take(block, second, requests);
            _power.Take(block, second, requests);
        }
    }
}
