// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Switches the light off while the accelerometer sees no movement, and on again with the first one.</summary>
/// <remarks>
/// The library's <see cref="PowerController"/> without looks. A device that is put away saves its light so; a wearer who holds that
/// still is taken for a table.
/// </remarks>
public sealed class StillnessControl : ControllingDetector
{
    internal const string Word = "sleep_when_still";

    private readonly PowerDriver _power = new(PowerSettings.SwitchOff);
    private long _ticksPerSecond;

    /// <summary>Puts the control around a detector.</summary>
    /// <param name="inner">Gives the marks; disposed with this one.</param>
    public StillnessControl(IDetector inner)
        : base(inner, Word)
    {
    }

    private protected override void Begin(StreamFormat format)
    {
        _ticksPerSecond = format.Clock.TicksPerSecond;
        _power.Begin(format);
    }

    private protected override void Control(SampleBlock block, EventRing<SettingsRequest> requests)
    {
        long last = SecondSlices.Last(block, _ticksPerSecond);
        for (long second = SecondSlices.First(block, _ticksPerSecond); second <= last; second++)
        {
            _power.Take(block, second, requests);
        }
    }
}
