// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>From light to pulses: leaves out what cannot be used, tells the detector of gaps and of changed settings.</summary>
internal struct LightPath
{
    // Half a millisecond is the shortest sampling interval: a slice of a tenth of a second has 50 samples at 500 Hz.
    private const int MostInSlice = 64;

    public ChannelState State;
    public PulseDetector Pulses;

    public bool Start(in LibrarySetup setup)
    {
        if (setup.Light == ChannelRole.None)
        {
            return true;
        }

        ChannelSetup light = setup[setup.Light];
        State = new ChannelState(light.TicksPerSample);
        return Pulses.Start(light.RateHz, light.Polarity);
    }

    /// <summary>Takes the samples of a slice.</summary>
    public void Take<TProbe>(ChannelPiece light, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        for (int done = 0; done < light.Codes.Length;)
        {
            int count = State.CountAlike(light.Status[done..], out bool isUsable);
            count = count < MostInSlice ? count : MostInSlice;
            if (isUsable)
            {
                TakeUsable(light.Codes.Slice(done, count), light.FirstIndex + done, ref found, ref probe);
            }

            done += count;
        }
    }

    private void TakeUsable<TProbe>(ReadOnlySpan<int> codes, long index, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (index != State.Expected)
        {
            Pulses.Restart(index);
        }

        State.Expected = index + codes.Length;
        while (!codes.IsEmpty)
        {
            int taken = Pulses.Take(codes, ref probe, out bool isPulse);
            codes = codes[taken..];
            index += taken;
            if (isPulse)
            {
                found.AddPulse(Pulses.Event, (index - 1) * State.Step);
            }
        }
    }
}
