// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>What a channel carries. The numbers are also the order in which samples of one tick are consumed.</summary>
public enum ChannelName
{
    /// <summary>Voltage between the two ECG electrodes [mV].</summary>
    Ecg = 0,

    /// <summary>Received red light [nA of photocurrent].</summary>
    Red = 1,

    /// <summary>Received infrared light [nA of photocurrent].</summary>
    Infrared = 2,

    /// <summary>Received green light [nA of photocurrent].</summary>
    Green = 3,

    /// <summary>Received light while every LED is off [nA of photocurrent].</summary>
    Dark = 4,

    /// <summary>Acceleration along the sensor's first axis [g].</summary>
    AccelX = 5,

    /// <summary>Acceleration along the sensor's second axis [g].</summary>
    AccelY = 6,

    /// <summary>Acceleration along the sensor's third axis [g].</summary>
    AccelZ = 7,
}
