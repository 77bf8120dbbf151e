// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>A small made-up stream: Gaussian ECG at 250 Hz, two-Gaussian pulse (Tang 2020, "excellent") at 100 Hz, any cut.</summary>
internal sealed class StreamMaker
{
    public const double RrS = 0.82;
    public const double FirstRS = 0.6;

    /// <summary>From R to the start of the pulse template; its tangent foot lies 0.0641 beats later.</summary>
    public const double TemplateDelayS = 0.2;

    private readonly int[][] _codes;
    private readonly ushort[][] _status;
    private readonly bool[][] _lost;

    public StreamMaker(double durationS, params ChannelFormat[] channels)
    {
        Format = new StreamFormat(channels);
        EndTick = (long)(durationS * Format.Clock.TicksPerSecond);
        _codes = new int[channels.Length][];
        _status = new ushort[channels.Length][];
        _lost = new bool[channels.Length][];
        for (int c = 0; c < channels.Length; c++)
        {
            int count = (int)(durationS * channels[c].RateHz);
            _codes[c] = new int[count];
            _status[c] = new ushort[count];
            _lost[c] = new bool[count];
            var random = new Random(c);
            for (int i = 0; i < count; i++)
            {
                double t = (double)i / channels[c].RateHz;
                double delayed = t - (channels[c].DeclaredDelayNs * 1e-9);
                double noise = random.NextDouble() - 0.5;
                double value = channels[c].Name == ChannelName.Ecg ? (1000 * Ecg(delayed)) + (20 * noise) : 50_000 - (500 * Pulse(delayed)) + (5 * noise);
                _codes[c][i] = channels[c].ZeroCode + (int)Math.Round(value * channels[c].Polarity);
            }
        }
    }

    public StreamFormat Format { get; }

    public long EndTick { get; }

    public static ChannelFormat Channel(ChannelName name, int rateHz, int polarity = 1, long delayNs = 0) => new()
    {
        Name = name,
        Device = "made_up",
        RateHz = rateHz,
        Bits = 18,
        IsSigned = true,
        UnitPerCode = 0.001,
        Polarity = polarity,
        DeclaredDelayNs = delayNs,
    };

    public void Lose(int channel, int first, int count) => Array.Fill(_lost[channel], true, first, count);

    public void Flag(int channel, int first, int count, SampleStatus status) => Array.Fill(_status[channel], (ushort)status, first, count);

    public void Spoil(int channel, int first, int count, int code) => Array.Fill(_codes[channel], code, first, count);

    public void Fill(SampleBlock block, long begin, long end)
    {
        block.Begin(begin, end);
        for (int c = 0; c < _codes.Length; c++)
        {
            long first = Format.FirstSampleAtOrAfter(c, begin);
            long last = Format.FirstSampleAtOrAfter(c, end);
            for (long i = first; i < last; i++)
            {
                if (!_lost[c][i])
                {
                    block.Channels[c].Append(i, 1, out Span<int> codes, out Span<ushort> status);
                    codes[0] = _codes[c][i];
                    status[0] = _status[c][i];
                }
            }
        }
    }

    public List<Mark> Run(Func<long> nextLength)
    {
        using var detector = new LibraryDetector();
        detector.Start(Format);
        var output = new DetectorOutput();
        var marks = new List<Mark>();
        var block = new SampleBlock(Format, EndTick);
        for (long tick = 0; tick < EndTick;)
        {
            long end = Math.Min(EndTick, tick + nextLength());
            Fill(block, tick, end);
            detector.Process(block, output);
            Take(output, marks);
            tick = end;
        }

        detector.Flush(output);
        Take(output, marks);
        Assert.That(output.Marks.OverflowCount, Is.Zero);
        return marks;
    }

    private static void Take(DetectorOutput output, List<Mark> marks)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }
    }

    public static double Ecg(double t)
    {
        double since = t - FirstRS - (Math.Round((t - FirstRS) / RrS) * RrS);
        double Wave(double at, double height, double width) => height * Math.Exp(-(since - at) * (since - at) / (2 * width * width));
        return Wave(-0.17, 0.12, 0.02) + Wave(0, 1, 0.01) + Wave(0.035, -0.2, 0.009) + Wave(0.27, 0.3, 0.04);
    }

    public static double Pulse(double t)
    {
        double beats = (t - FirstRS - TemplateDelayS) / RrS;
        double theta = ((beats - Math.Floor(beats)) * 2 * Math.PI) - Math.PI;
        double sum = 0;
        for (int k = -1; k <= 1; k++)
        {
            double u = (theta + (2 * Math.PI * k) + 1.5161) / 0.6303;
            double v = (theta + (2 * Math.PI * k) - 0.8186) / 1.0225;
            sum += Math.Exp(-u * u / 2) + (0.1999 * Math.Exp(-v * v / 2));
        }

        return sum;
    }
}
