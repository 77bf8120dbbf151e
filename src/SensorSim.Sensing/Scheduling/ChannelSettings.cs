// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;

namespace SensorSim.Sensing.Scheduling;

/// <summary>The settings of one channel that can change while the sensor runs.</summary>
/// <param name="LedCurrentMa">LED current of its slot [mA].</param>
/// <param name="PulseWidthUs">Time over which its slot gathers light [µs].</param>
/// <param name="Gain">Gain of its amplifier against that of the format's unit per code [ratio].</param>
/// <param name="Decimation">Every how manieth sample of the base rate is given, from sample 0 on; 0: the channel is off.</param>
internal readonly record struct ChannelSettings(double LedCurrentMa, double PulseWidthUs, double Gain, int Decimation)
{
    /// <summary>The same with another value of one setting.</summary>
    /// <param name="setting">Which.</param>
    /// <param name="milli">Its value in thousandths of its unit.</param>
    public ChannelSettings With(SensorSetting setting, int milli) => setting switch
    {
        SensorSetting.LedCurrentMa => this with { LedCurrentMa = milli / 1000.0 },
        SensorSetting.PulseWidthUs => this with { PulseWidthUs = milli / 1000.0 },
        SensorSetting.Gain => this with { Gain = milli / 1000.0 },
        _ => this with { Decimation = milli / 1000 },
    };
}
