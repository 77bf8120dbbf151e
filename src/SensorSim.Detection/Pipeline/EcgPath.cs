// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>From ECG samples to beats: leaves out what cannot be used, tells the detector of gaps.</summary>
internal struct EcgPath
{
    public ChannelState State;
    public BeatDetector Beats;

    public bool Start(in ChannelSetup channel)
    {
        State = new ChannelState(channel.TicksPerSample);
        return !channel.IsThere || Beats.Start(channel.RateHz);
    }

    /// <summary>Takes the samples of a slice.</summary>
    public void Take<TProbe>(ChannelPiece piece, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        for (int done = 0; done < piece.Codes.Length;)
        {
            int count = State.CountAlike(piece.Status[done..], out bool isUsable);
            if (isUsable)
            {
                TakeUsable(piece.Codes.Slice(done, count), piece.Status.Slice(done, count), piece.FirstIndex + done, ref found, ref probe);
            }

            done += count;
        }
    }

    private void TakeUsable<TProbe>(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, long index, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (index != State.Expected)
        {
            // What was held back is decided before the gap; it shows with the first sample after it.
            if (Beats.Flush())
            {
                found.AddBeat(Beats.Event, index * State.Step);
            }

            Beats.Restart(index);
        }

        State.Expected = index + codes.Length;
        while (!codes.IsEmpty)
        {
            int taken = Beats.Take(codes, status, ref probe, out bool isBeat);
            codes = codes[taken..];
            status = status[taken..];
            index += taken;
            if (isBeat)
            {
                found.AddBeat(Beats.Event, (index - 1) * State.Step);
            }
        }
    }
}
