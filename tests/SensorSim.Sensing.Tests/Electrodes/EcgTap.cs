// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>The ECG as it stands at the converter, and its status words.</summary>
/// <param name="Millivolts">Analog values [mV].</param>
/// <param name="Status">Status words.</param>
internal sealed record EcgTap(double[] Millivolts, ushort[] Status)
{
    /// <summary>Reads a stream from its start.</summary>
    public static EcgTap Of(KeyValues values, double seconds, ulong seed = 7)
    {
        var stream = new SensorStream(values, seed, seconds);
        var analog = new List<double>();
        stream.AnalogTap = (channel, _, x) =>
        {
            if (channel == ChannelName.Ecg)
            {
                analog.AddRange(x.ToArray());
            }
        };
        Recording recording = Recording.OfRest(stream, 10 * stream.Format.Clock.TicksPerSecond);
        return new EcgTap([.. analog], recording.Status(ChannelName.Ecg));
    }

    /// <summary>Whether a sample has a flag.</summary>
    public bool Has(int sample, SampleStatus flag) => (Status[sample] & (int)flag) != 0;

    /// <summary>Number of samples with a flag.</summary>
    public int Count(SampleStatus flag) => Status.Count(s => (s & (int)flag) != 0);
}
