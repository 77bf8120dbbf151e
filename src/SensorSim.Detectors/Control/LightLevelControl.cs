// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Asks for LED current so that the mean code of each lit channel stays in a band of the converter's range.</summary>
/// <remarks>
/// The library's <see cref="LevelController"/> without gain. Room light is told apart where there is a dark channel.
/// </remarks>
public sealed class LightLevelControl : ControllingDetector
{
    internal const string Word = "light_level";

    /// <summary>LED current at the start [µA].</summary>
    public const int StartMilli = LevelSettings.UsualStartMicroamp;

    /// <summary>Smallest current that is asked for [µA].</summary>
    public const int LeastMilli = LevelSettings.UsualLeastMicroamp;

    /// <summary>Largest current that is asked for [µA].</summary>
    public const int MostMilli = LevelSettings.UsualMostMicroamp;

    /// <summary>Lower end of the band, in percent of the codes above that of no light.</summary>
    public const int LowPercent = LevelSettings.UsualLowPercent;

    /// <summary>Upper end of the band.</summary>
    public const int HighPercent = LevelSettings.UsualHighPercent;

    private readonly LevelDriver _level = new(LevelSettings.Current);
    private long _ticksPerSecond;

    /// <summary>Puts the control around a detector.</summary>
    /// <param name="inner">Gives the marks; disposed with this one.</param>
    public LightLevelControl(IDetector inner)
        : base(inner, Word)
    {
    }

    private protected override void Begin(StreamFormat format)
    {
        _ticksPerSecond = format.Clock.TicksPerSecond;
        _level.Begin(format);
    }

    private protected override void Control(SampleBlock block, EventRing<SettingsRequest> requests)
    {
        long last = SecondSlices.Last(block, _ticksPerSecond);
        for (long second = SecondSlices.First(block, _ticksPerSecond); second <= last; second++)
        {
            _level.Take(block, second, requests);
        }
    }
}
