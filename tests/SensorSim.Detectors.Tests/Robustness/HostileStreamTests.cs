// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.Robustness;

/// <summary>The library on streams that no maker wants: it never throws, never lies, never allocates, and never shows how they were cut.</summary>
/// <remarks>tests/overflow.sh runs the short ones with every plain sum checked. A range for the long one: SENSORSIM_HOSTILE_SEEDS=first-last.</remarks>
[TestFixture]
public sealed class HostileStreamTests
{
    private static readonly DetectorCalibration s_calibration = new()
    {
        Pressure = new PressureCurve("logarithmic", [new CuffMeasurement(215, 120, 80)]),
        Trend = new TrendSearch(),
        TimeOfDayH = 10,
    };

    [Test]
    public void Process_HostileStream_MarksAreSoundAndShowNoCut([Range(1, 60)] int seed) => Check(seed, 90, 0);

    [Test]
    public void Process_HoursOfSilence_MarksAreSound([Values(9001, 9002)] int seed) => Check(seed, 2 * 3600, 3600);

    [Test]
    [Category("Slow")]
    public void Process_ManyHostileStreams_MarksAreSoundAndShowNoCut()
    {
        string[] range = (Environment.GetEnvironmentVariable("SENSORSIM_HOSTILE_SEEDS") ?? "10000-10999").Split('-');
        for (int seed = int.Parse(range[0], CultureInfo.InvariantCulture); seed <= int.Parse(range[1], CultureInfo.InvariantCulture); seed++)
        {
            Check(seed, seed % 50 == 0 ? 4 * 3600 : 240, seed % 50 == 0 ? 3 * 3600 : 0);
        }
    }

    [Test]
    public void Process_HostileStream_AllocatesNothing([Values(1, 7, 12)] int seed)
    {
        var stream = new HostileStream(seed, 60);
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        SampleBlock[] blocks = [.. Enumerable.Range(0, stream.DurationS).Select(_ => new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond))];
        for (int i = 0; i < blocks.Length; i++)
        {
            stream.Fill(blocks[i], i * stream.Format.Clock.TicksPerSecond, (i + 1) * stream.Format.Clock.TicksPerSecond);
        }

        Assert.That(Allocations.Least(() => Feed(detector, blocks, output)), Is.Zero);
    }

    private static void Feed(LibraryDetector detector, SampleBlock[] blocks, DetectorOutput output)
    {
        for (int i = 0; i < blocks.Length; i++)
        {
            detector.Process(blocks[i], output);
            while (output.Marks.TryTake(out _))
            {
            }
        }
    }

    private static void Check(int seed, int durationS, int silenceS)
    {
        var stream = new HostileStream(seed, durationS, silenceS);
        List<Mark> whole = Run(stream, seed, () => stream.Format.Clock.TicksPerSecond);
        var random = new Random(seed);
        List<Mark> cut = Run(stream, seed, () => 1 + (long)(stream.Format.Clock.TicksPerSecond * Math.Pow(random.NextDouble(), 4)));
        for (int i = 0; i < Math.Min(whole.Count, cut.Count); i++)
        {
            Assert.That(cut[i], Is.EqualTo(whole[i]), $"seed {seed}: mark {i} changes with the cut");
        }

        Assert.That(cut, Has.Count.EqualTo(whole.Count), $"seed {seed}");
    }

    private static List<Mark> Run(HostileStream stream, int seed, Func<long> nextLength)
    {
        using var detector = new LibraryDetector(seed % 2 == 0 ? s_calibration : null);
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        var rules = new MarkRules(stream.Format);
        var marks = new List<Mark>();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond + 1);
        long begin = 0;
        for (long tick = 0; tick < stream.EndTick;)
        {
            begin = tick;
            tick = Math.Min(stream.EndTick, tick + nextLength());
            stream.Fill(block, begin, tick);
            try
            {
                detector.Process(block, output);
            }
            catch (Exception e)
            {
                throw new InvalidOperationException($"seed {seed}, block that ends at {stream.Format.Clock.Seconds(tick)} s", e);
            }

            Take(output, rules, marks, begin, tick, seed);
        }

        detector.Flush(output);
        Take(output, rules, marks, begin, stream.EndTick, seed);
        return marks;
    }

    private static void Take(DetectorOutput output, MarkRules rules, List<Mark> marks, long begin, long end, int seed)
    {
        Assert.That(output.Marks.OverflowCount, Is.Zero, $"seed {seed}");
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
            if (rules.Wrong(mark, begin, end) is string wrong)
            {
                Assert.Fail($"seed {seed}: {wrong}: {mark}");
            }
        }
    }
}
