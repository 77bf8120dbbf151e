// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Robustness;

/// <summary>One channel: stretches of one kind of signal each, stretches of status, stretches of loss, laid before anything is asked.</summary>
internal sealed class HostileChannel
{
    private readonly ChannelFormat _format;
    private readonly List<Stretch> _signals = [];
    private readonly List<Stretch> _flags = [];
    private readonly List<Stretch> _losses = [];
    private readonly int _seed;

    public HostileChannel(ChannelFormat format, int script, int seed, int durationS, int silenceS, double wildness)
    {
        _format = format;
        _seed = seed;
        var random = new Random(script);
        Lay(_signals, random, durationS, () => new Stretch(0, Long(random, 40), random.Next(12), random.NextDouble(), random.NextDouble()));
        bool isCalm = true;
        Lay(_flags, random, durationS, () =>
        {
            isCalm = !isCalm;
            return new Stretch(0, Long(random, isCalm ? 60 : 5), isCalm ? 0 : random.Next(1, 7), wildness, random.NextDouble());
        });
        Lay(_losses, random, durationS, () =>
        {
            isCalm = !isCalm;
            return new Stretch(0, isCalm ? Long(random, 60) : Long(random, random.Next(6) == 0 ? silenceS : 1), isCalm ? 0 : random.Next(1, 3), wildness, 0);
        });
    }

    public void Fill(ChannelBlock block, long begin, long end)
    {
        for (long i = begin; i < end; i++)
        {
            double t = (double)i / _format.RateHz;
            Stretch loss = At(_losses, t);
            if (loss.Kind == 1 || (loss.Kind == 2 && Noise(i, 3) < loss.One))
            {
                continue;
            }

            block.Append(i, 1, out Span<int> codes, out Span<ushort> status);
            codes[0] = Code(i, t);
            status[0] = Status(i, t);
        }
    }

    // Lengths over many scales: from a sample or so to the longest.
    private static double Long(Random random, double mostS) => 0.002 * Math.Pow(mostS / 0.002, random.NextDouble());

    private static void Lay(List<Stretch> into, Random random, int durationS, Func<Stretch> next)
    {
        _ = random;
        double at = 0;
        while (at < durationS)
        {
            Stretch one = next();
            into.Add(one with { BeginS = at });
            at += one.LengthS;
        }
    }

    private static Stretch At(List<Stretch> stretches, double t)
    {
        int low = 0;
        int high = stretches.Count - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            (low, high) = stretches[middle].BeginS <= t ? (middle, high) : (low, middle - 1);
        }

        return stretches[low];
    }

    // From 0 to 1, by channel, index and purpose.
    private double Noise(long index, int purpose)
    {
        ulong z = unchecked(((ulong)index * 0x9E3779B97F4A7C15UL) + ((ulong)(uint)_seed * 0xBF58476D1CE4E5B9UL) + (ulong)purpose);
        z = unchecked((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL);
        z = unchecked((z ^ (z >> 27)) * 0x94D049BB133111EBUL);
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    private ushort Status(long i, double t)
    {
        Stretch flags = At(_flags, t);
        return flags.Kind switch
        {
            0 => 0,
            1 => (ushort)(1 << (int)(flags.Two * 8)),
            2 => (ushort)(Noise(i, 1) * 65_536),
            3 => (ushort)(((long)(t * 20 * flags.Two) & 255) << 8),
            4 => (ushort)(Noise(i, 1) < 0.02 ? 64 : 0),
            5 => (ushort)(((int)(Noise(i, 1) * 256) & 255) << 8),
            _ => (ushort)(Noise(i, 1) < flags.One * 0.2 ? 1 << (int)(Noise(i, 2) * 8) : 0),
        };
    }

    private int Code(long i, double t)
    {
        Stretch signal = At(_signals, t);
        double perMinute = 10 * Math.Pow(60, signal.One);
        double beats = t * perMinute / 60;
        double phase = beats - Math.Floor(beats);
        double since = t - signal.BeginS;
        double size = Math.Pow(2, -12 * signal.Two);
        double x = signal.Kind switch
        {
            0 => 1,
            1 => -1,
            2 => 0,
            3 => (2 * Noise(i, 0)) - 1,
            4 => size * ((2 * Noise(i, 0)) - 1),
            5 => phase < 0.5 ? 1 : -1,
            6 => size * (phase < 0.5 ? 1 : -1),
            7 => size * Math.Sin(2 * Math.PI * phase),
            8 => size * (Wave(phase - 0.3, 0.012) + (0.2 * Wave(phase - 0.6, 0.05)) + (0.05 * Noise(i, 0))),
            9 => (0.5 * signal.Two) - (0.02 * size * (Wave(phase - 0.3, 0.1) + (0.3 * Wave(phase - 0.6, 0.15)) + (0.02 * Noise(i, 0)))),
            10 => Noise(i, 0) < 0.02 ? (Noise(i, 4) < 0.5 ? 1 : -1) : 0.1 * size * Noise(i, 5),
            _ => (2 * Math.Min(1, since * signal.One)) - 1 + (0.01 * Math.Sin(2 * Math.PI * phase)),
        };
        double middle = (_format.MaximumCode + (double)_format.MinimumCode) / 2;
        double code = middle + (x * (_format.MaximumCode - middle));
        return (int)Math.Clamp(Math.Round(code), _format.MinimumCode, _format.MaximumCode);
    }

    private static double Wave(double from, double width) => Math.Exp(-from * from / (2 * width * width));

    private readonly record struct Stretch(double BeginS, double LengthS, int Kind, double One, double Two);
}
