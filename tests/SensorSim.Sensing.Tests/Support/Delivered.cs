// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>What the delivery of one channel passes on of samples whose code is their index.</summary>
internal sealed class Delivered
{
    private const int Block = 997;

    private Delivered(int count, int rateHz)
    {
        RateHz = rateHz;
        Codes = new int[count];
        Status = new ushort[count];
        Array.Fill(Codes, -1);
    }

    public int RateHz { get; }

    /// <summary>Code that arrived for each index; −1 where nothing did.</summary>
    public int[] Codes { get; }

    public ushort[] Status { get; }

    public List<AcquisitionEvent> Told { get; } = [];

    public bool[] IsLost => [.. Codes.Select(c => c < 0)];

    public double LostShare => Codes.Count(c => c < 0) / (double)Codes.Length;

    public static Delivered Of(KeyValues values, int count, int rateHz, ChannelName name = ChannelName.Ecg, ulong seed = 7)
    {
        ChannelFormat format = Format(name, rateHz);
        var delivery = new ChannelDelivery(values, seed, format);
        var result = new Delivered(count, rateHz);
        var block = new ChannelBlock(Block);
        var events = new EventRing<AcquisitionEvent>(8192);
        var codes = new int[Block];
        var status = new ushort[Block];
        for (int first = 0; first < count; first += Block)
        {
            int length = Math.Min(Block, count - first);
            for (int i = 0; i < length; i++)
            {
                codes[i] = first + i;
                status[i] = 0;
            }

            block.Clear();
            delivery.Deliver(codes.AsSpan(0, length), status.AsSpan(0, length), first, block, events);
            foreach (SampleRun run in block.Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    result.Codes[run.FirstIndex + i] = block.Codes[run.Offset + i];
                    result.Status[run.FirstIndex + i] = block.Status[run.Offset + i];
                }
            }

            Assert.That(events.OverflowCount, Is.Zero);
            while (events.TryTake(out AcquisitionEvent told))
            {
                result.Told.Add(told);
            }
        }

        return result;
    }

    /// <summary>Lengths of the runs of true.</summary>
    public static int[] Runs(IEnumerable<bool> flags)
    {
        List<int> runs = [];
        int length = 0;
        foreach (bool flag in flags.Append(false))
        {
            if (flag)
            {
                length++;
            }
            else if (length > 0)
            {
                runs.Add(length);
                length = 0;
            }
        }

        return [.. runs];
    }

    private static ChannelFormat Format(ChannelName name, int rateHz) => new()
    {
        Name = name, Device = "sensor", RateHz = rateHz, Bits = 24, IsSigned = false, UnitPerCode = 1,
    };
}
