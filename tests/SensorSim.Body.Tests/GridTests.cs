// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Body.Tests;

/// <summary>The waves drawn by recurrence against the formulas, and against themselves under other cuts.</summary>
public sealed class GridTests
{
    private static readonly double[] s_rates = [50, 64, 100, 250, 333, 500, 1000, 2000];
    private static readonly double[] s_starts = [0, 0.0012345, 0.5];
    private static readonly int[] s_cuts = [1, 2, 3, 7, 64, 1000, 65536];
    private const string PulseFingerprint = "1b1704f9937e6dd8";

    public delegate void Reader(Span<double> buffer, long firstIndex);

    [Test]
    public void EcgGrid_AnyRateAndStart_IsTheSumOfGaussians(
        [ValueSource(nameof(s_rates))] double rateHz, [ValueSource(nameof(s_starts))] double startSeconds, [Values("default", "180 bpm", "large R, 60 ms QRS")] string name)
    {
        var grid = new SampleGrid(startSeconds, 1 / rateHz);
        double[] drawn = Read(new EcgGrid(new BodyModel(Cases.Values(name), 31), grid).Add, (int)(5 * rateHz), 64, 0);
        Compare(drawn, grid, name, (waves, t) => waves.Ecg(t, 7.2));
    }

    [Test]
    public void PulseGrid_AnyRateAndStart_IsTheSumOfItsComponents(
        [ValueSource(nameof(s_rates))] double rateHz, [ValueSource(nameof(s_starts))] double startSeconds, [Values("default", "40 bpm", "180 bpm")] string name)
    {
        var grid = new SampleGrid(startSeconds, 1 / rateHz);
        double[] drawn = Read(new PulseGrid(new BodyModel(Cases.Values(name), 31), grid, ChannelName.Infrared).Add, (int)(5 * rateHz), 64, 0);

        // Absorbance of a pulse unit: ln((1 + h) / (1 - h)) with half the perfusion index h, 2 % by default (Beer-Lambert, textbook).
        double gain = Math.Log(1.01 / 0.99);
        double[] units = [.. drawn.Select(v => v / gain)];
        Compare(units, grid, name, (waves, t) => waves.Pulse(t, isCut: true), 2e-8);

        // The cut itself takes less than 1e-7 of a unit away.
        Compare(units, grid, name, (waves, t) => waves.Pulse(t), 1e-7);
    }

    [Test]
    public void PulseGrid_RedLight_IsTheInfraredTimesTheRatioOfRatios()
    {
        KeyValues values = new KeyValues().Set(PulseKeys.RatioOfRatios, 0.7);
        var grid = new SampleGrid(0, 0.01);
        double[] red = Read(new PulseGrid(new BodyModel(values, 31), grid, ChannelName.Red).Add, 3000, 100, 0);
        double[] infrared = Read(new PulseGrid(new BodyModel(values, 31), grid, ChannelName.Infrared).Add, 3000, 100, 0);
        Assert.That(red, Is.EqualTo(infrared.Select(v => 0.7 * v)).Within(1e-15));
        Assert.That(infrared.Max(), Is.GreaterThan(0.015));
    }

    // The first seconds of infrared light, by the project itself: the same with AVX-512, AVX2, SSE2 and no vector unit.
    [Test]
    public void PulseGrid_DefaultBody_GivesThePinnedBits()
    {
        double[] drawn = Read(new PulseGrid(new BodyModel(new KeyValues(), 1), new SampleGrid(0.0017, 0.01), ChannelName.Infrared).Add, 6000, 97, 0);
        ulong hash = 0xCBF29CE484222325;
        foreach (double value in drawn)
        {
            ulong bits = BitConverter.DoubleToUInt64Bits(value);
            for (int shift = 0; shift < 64; shift += 8)
            {
                hash = unchecked((hash ^ ((bits >> shift) & 0xFF)) * 0x100000001B3);
            }
        }

        Assert.That(hash.ToString("x16", null), Is.EqualTo(PulseFingerprint));
    }

    [Test]
    public void EcgGrid_AnyCut_GivesTheSameBits([ValueSource(nameof(s_cuts))] int cut, [Values(50, 250)] int rateHz, [Values(65, 250)] double rateBpm)
    {
        var grid = new SampleGrid(0.003, 1.0 / rateHz);
        EcgGrid New() => new(new BodyModel(new KeyValues().Set(HeartKeys.RateBpm, rateBpm), 32), grid);
        Assert.That(Read(New().Add, 20000, cut, 0), Is.EqualTo(Read(New().Add, 20000, 250, 0)));
    }

    [Test]
    public void PulseGrid_AnyCut_GivesTheSameBits([ValueSource(nameof(s_cuts))] int cut, [Values(50, 250)] int rateHz, [Values(65, 250)] double rateBpm)
    {
        var grid = new SampleGrid(0.003, 1.0 / rateHz);
        PulseGrid New() => new(new BodyModel(new KeyValues().Set(HeartKeys.RateBpm, rateBpm), 32), grid, ChannelName.Infrared);
        Assert.That(Read(New().Add, 20000, cut, 0), Is.EqualTo(Read(New().Add, 20000, 250, 0)));
    }

    // Filled is what would be added to the level; half way a copy goes on.
    [Test]
    public void PulseGrid_Fill_GivesTheBitsOfAddToTheLevel(
        [ValueSource(nameof(s_cuts))] int cut, [Values(25, 250, 1000)] int rateHz, [Values(0, 777)] int start)
    {
        const double Level = -0.0123;
        var grid = new SampleGrid(0.003, 1.0 / rateHz);
        var body = new BodyModel(new KeyValues(), 37);
        var filled = new PulseGrid(body, grid, ChannelName.Red, Level);
        double[] first = Read(filled.Fill, 3001, cut, start);
        PulseGrid copy = filled.Copy(body.Copy());
        double[] rest = Read(filled.Fill, 2000, cut, start + 3001);
        Assert.That(Read(copy.Fill, 2000, 250, start + 3001), Is.EqualTo(rest));
        var added = new PulseGrid(new BodyModel(new KeyValues(), 37), grid, ChannelName.Red);
        double[] wanted = Read((buffer, index) => Add(added, buffer, index), 5001, 250, start);
        Assert.That(first.Concat(rest), Is.EqualTo(wanted));
        Assert.That(wanted.Max(), Is.GreaterThan(Level + 0.005));

        static void Add(PulseGrid pulse, Span<double> buffer, long index)
        {
            buffer.Fill(Level);
            pulse.Add(buffer, index);
        }
    }

    [TestCase(1)]
    [TestCase(777)]
    [TestCase(12345)]
    public void Grids_StartInTheMiddle_IsGeneratingFromZeroAndDiscarding(int start)
    {
        var grid = new SampleGrid(0, 1.0 / 250);
        EcgGrid Ecg() => new(new BodyModel(new KeyValues(), 33), grid);
        PulseGrid Pulse() => new(new BodyModel(new KeyValues(), 33), grid, ChannelName.Infrared);
        Assert.That(Read(Ecg().Add, 2000, 97, start), Is.EqualTo(Read(Ecg().Add, start + 2000, 250, 0)[start..]));
        Assert.That(Read(Pulse().Add, 2000, 97, start), Is.EqualTo(Read(Pulse().Add, start + 2000, 250, 0)[start..]));
    }

    [Test]
    public void Grids_Copy_GoesOnWithTheSameBits()
    {
        var grid = new SampleGrid(0, 1.0 / 250);
        var body = new BodyModel(new KeyValues(), 34);
        var ecg = new EcgGrid(body, grid);
        var pulse = new PulseGrid(body, grid, ChannelName.Infrared);
        Read(ecg.Add, 1000, 250, 0);
        Read(pulse.Add, 1000, 250, 0);
        BodyModel body2 = body.Copy();
        EcgGrid ecg2 = ecg.Copy(body2);
        PulseGrid pulse2 = pulse.Copy(body2);
        double[] first = [.. Read(ecg.Add, 2000, 250, 1000), .. Read(pulse.Add, 2000, 250, 1000)];
        double[] second = [.. Read(ecg2.Add, 2000, 125, 1000), .. Read(pulse2.Add, 2000, 125, 1000)];
        Assert.That(second, Is.EqualTo(first));
    }

    [TestCase(20)]
    [TestCase(65)]
    [TestCase(250)]
    public void Grids_LongRun_HaveNoDenormalAndNoNaN(double rateBpm)
    {
        KeyValues values = new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(EcgKeys.PMv, 0.001);
        var grid = new SampleGrid(0, 1e-3);
        double[] ecg = Read(new EcgGrid(new BodyModel(values, 35), grid).Add, 60000, 1000, 0);
        double[] pulse = Read(new PulseGrid(new BodyModel(values, 35), grid, ChannelName.Infrared).Add, 60000, 1000, 0);

        // A wave is cut at 1e-11 (ECG) or 1e-8 (pulse) of its height; near its own start a pulse is x^9·e^9, at 1e-9 of a step 1e-77.
        Assert.That(ecg.Concat(pulse).All(double.IsFinite));
        Assert.That(ecg.Where(v => v != 0).Select(Math.Abs).Min(), Is.GreaterThan(1e-16));
        Assert.That(pulse.Where(v => v != 0).Min(), Is.GreaterThan(1e-80));
    }

    [Test]
    public void Grids_AfterWarmUp_AllocateNothing()
    {
        var body = new BodyModel(new KeyValues(), 36);
        var ecg = new EcgGrid(body, new SampleGrid(0, 1.0 / 250));
        var pulse = new PulseGrid(body, new SampleGrid(0, 1.0 / 100), ChannelName.Infrared);
        double[] buffer = new double[250];
        int second = 0;
        ReadTo(100);

        Assert.That(Allocations.Least(() => ReadTo(second + 200)), Is.Zero);

        void ReadTo(int end)
        {
            for (; second < end; second++)
            {
                ecg.Add(buffer, second * 250L);
                pulse.Add(buffer.AsSpan(0, 100), second * 100L);
                body.Truth.Clear();
            }
        }
    }

    private static void Compare(double[] drawn, SampleGrid grid, string name, Func<DirectWaves, double, double> value, double tolerance = 1e-9)
    {
        var waves = new DirectWaves(new Heartbeats(Cases.Values(name), 31, 8).Beats);
        for (int i = 0; i < drawn.Length; i++)
        {
            double expected = value(waves, grid.StartSeconds + (i * grid.StepSeconds));
            if (Math.Abs(drawn[i] - expected) > tolerance)
            {
                Assert.Fail($"sample {i}: {drawn[i]:R} instead of {expected:R}");
            }
        }
    }

    private static double[] Read(Reader add, int count, int cut, long firstIndex)
    {
        double[] all = new double[count];
        for (int done = 0; done < count; done += cut)
        {
            add(all.AsSpan(done, Math.Min(cut, count - done)), firstIndex + done);
        }

        return all;
    }
}
