// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Robustness;

/// <summary>A stream that no maker wants: any rates, any codes, any status, any loss; all of it from one number.</summary>
/// <remarks>What stands in a sample depends on its channel and index alone, so any cut gives the same.</remarks>
internal sealed class HostileStream
{
    private static readonly int[] s_ecgRates = [100, 125, 128, 200, 250, 256, 333, 360, 500, 512, 977, 1000];
    private static readonly int[] s_lightRates = [25, 26, 32, 50, 64, 100, 111, 125, 128, 200, 250, 333, 400, 500];
    private static readonly int[] s_accelRates = [13, 25, 26, 50, 52, 100, 104, 200, 400];

    private readonly HostileChannel[] _channels;

    /// <summary>Makes the stream.</summary>
    /// <param name="seed">The number.</param>
    /// <param name="durationS">Its length [s].</param>
    /// <param name="silenceS">Longest stretch without samples [s]; 0: a minute.</param>
    public HostileStream(int seed, int durationS, int silenceS = 0)
    {
        var random = new Random(seed);
        Format = MakeFormat(random);
        DurationS = durationS;
        EndTick = durationS * Format.Clock.TicksPerSecond;
        double wildness = random.NextDouble();
        bool isShared = random.Next(2) == 0;
        int shared = random.Next();
        _channels = new HostileChannel[Format.Channels.Count];
        for (int c = 0; c < _channels.Length; c++)
        {
            // Often all channels do the same at the same time, as when a plug is pulled.
            int own = random.Next();
            _channels[c] = new HostileChannel(Format.Channels[c], isShared ? shared : own, own, durationS, silenceS == 0 ? 60 : silenceS, wildness);
        }
    }

    /// <summary>Channels and clock.</summary>
    public StreamFormat Format { get; }

    /// <summary>Length [s].</summary>
    public int DurationS { get; }

    /// <summary>Where it ends.</summary>
    public long EndTick { get; }

    /// <summary>Fills a block.</summary>
    /// <param name="block">The block.</param>
    /// <param name="begin">First tick.</param>
    /// <param name="end">Tick after the last.</param>
    public void Fill(SampleBlock block, long begin, long end)
    {
        block.Begin(begin, end);
        for (int c = 0; c < _channels.Length; c++)
        {
            _channels[c].Fill(block.Channels[c], Format.FirstSampleAtOrAfter(c, begin), Format.FirstSampleAtOrAfter(c, end));
        }
    }

    private static StreamFormat MakeFormat(Random random)
    {
        while (true)
        {
            int ecgHz = s_ecgRates[random.Next(s_ecgRates.Length)];
            int lightHz = s_lightRates[random.Next(s_lightRates.Length)];
            int darkHz = random.Next(3) > 0 ? lightHz : s_lightRates[random.Next(s_lightRates.Length)];
            int redHz = random.Next(4) > 0 ? lightHz : s_lightRates[random.Next(s_lightRates.Length)];
            int accelHz = s_accelRates[random.Next(s_accelRates.Length)];
            int present = random.Next(1, 16);
            var channels = new List<ChannelFormat>();
            AddIf((present & 1) != 0, ChannelName.Ecg, ecgHz);
            AddIf((present & 2) != 0 && random.Next(2) == 0, ChannelName.Red, redHz);
            AddIf((present & 2) != 0, ChannelName.Infrared, lightHz);
            AddIf((present & 4) != 0 || (present & 3) == 0, ChannelName.Green, lightHz);
            AddIf(random.Next(2) == 0, ChannelName.Dark, darkHz);
            AddIf((present & 8) != 0, ChannelName.AccelX, accelHz);
            AddIf((present & 8) != 0 && random.Next(8) > 0, ChannelName.AccelY, accelHz);
            AddIf((present & 8) != 0, ChannelName.AccelZ, accelHz);
            try
            {
                return new StreamFormat(WithOneWeight(random, channels).OrderBy(c => c.Name));
            }
            catch (ArgumentOutOfRangeException)
            {
                // No common clock for these rates: others.
            }

            void AddIf(bool isThere, ChannelName name, int rateHz)
            {
                if (isThere)
                {
                    channels.Add(MakeChannel(random, name, rateHz));
                }
            }
        }
    }

    // The library leaves axes of unlike weights alone: seven in eight have one.
    private static IEnumerable<ChannelFormat> WithOneWeight(Random random, List<ChannelFormat> channels)
    {
        bool isOne = random.Next(8) > 0;
        double weight = channels.Find(c => c.Name == ChannelName.AccelX)?.UnitPerCode ?? 1;
        return channels.Select(c => isOne && c.Name >= ChannelName.AccelX ? c with { UnitPerCode = weight } : c);
    }

    private static ChannelFormat MakeChannel(Random random, ChannelName name, int rateHz)
    {
        bool isAccel = name >= ChannelName.AccelX;
        int bits = isAccel ? random.Next(8, 21) : random.Next(10, 25);
        bool isSigned = random.Next(3) > 0;
        return new ChannelFormat
        {
            Name = name,
            Device = "made_up",
            RateHz = rateHz,
            Bits = bits,
            IsSigned = isSigned,
            UnitPerCode = Math.Pow(10, -1 - (4 * random.NextDouble())),
            ZeroCode = random.Next(2) == 0 ? 0 : random.Next(isSigned ? -(1 << (bits - 1)) : 0, 1 << (bits - 1)),
            Polarity = random.Next(4) == 0 ? -1 : 1,
            DeclaredDelayNs = random.Next(2) == 0 ? 0 : random.Next(-40_000_000, 200_000_000),
        };
    }
}
