// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>From ECG samples to beats: leaves out what cannot be used, tells the detector of gaps.</summary>
internal struct EcgPath
{
    public ChannelState State;
    private BeatDetector _beats;

    public bool Start(in ChannelSetup channel, in Tuning tuning)
    {
        State = new ChannelState(channel.TicksPerSample);
        return !channel.IsThere || _beats.Start(channel.RateHz, channel.CodesPerUnit256, tuning);
    }

    /// <summary>Takes the samples of a slice.</summary>
    public void Take<TProbe>(ChannelPiece piece, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        for (int done = 0; done < piece.Codes.Length;)
        {
            int count = State.CountAlike(piece.Status[done..]);
            if (State.IsUsable)
            {
                TakeUsable(piece.Codes.Slice(done, count), piece.Status.Slice(done, count), piece.FirstIndex + done, ref found, ref probe);
            }

            done += count;
        }
    }

    /// <summary>No more samples follow: decides about what is held.</summary>
    public void Flush(long tick, ref FoundList found)
    {
        while (State.Expected >= 0 && _beats.Flush())
        {
            Add(tick, ref found);
        }
    }

    private void TakeUsable<TProbe>(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, long index, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (index != State.Expected)
        {
            // A short gap is bridged; before a long one the detector decides what it holds, and tells it with the first sample after.
            _beats.Restart(index);
        }

        State.Expected = index + codes.Length;
        while (!codes.IsEmpty)
        {
            int most = codes.Length < probe.MostAtOnce ? codes.Length : probe.MostAtOnce;
            probe.At((int)ChannelRole.Ecg, index);
            int taken = _beats.Take(codes[..most], status[..most], ref probe, out bool isBeat);
            codes = codes[taken..];
            status = status[taken..];

            // None taken: it was decided while a gap was bridged, and shows with the sample that comes next.
            long shown = taken == 0 ? index : index + taken - 1;
            index += taken;
            if (isBeat)
            {
                Add(shown * State.Step, ref found);
            }
        }
    }

    private readonly void Add(long tick, ref FoundList found) => found.AddBeat(_beats.Event, _beats.SignalLevel, _beats.NoiseLevel, tick);
}
