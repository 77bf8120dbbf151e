// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>
/// The telegraph of sun and shade. Check values follow from its definition by probability alone (textbook: renewal of independent states);
/// every value below is of independent telegraphs, so standard errors are those of independent draws.
/// </summary>
public sealed class AmbientSwitchTests
{
    private const double Ramp = 0.02;

    // Two values m cells of half a second apart agree in the mean as often as nothing was kept in between: m − 1 whole cells and two
    // parts that make up one. With p the share kept and the place u even in a cell: E[(1 − p u)(1 − p (1 − u))] = 1 − p + p²/6.
    [TestCase(6, 1)]
    [TestCase(6, 5)]
    [TestCase(30, 1)]
    [TestCase(30, 3)]
    [TestCase(60, 1)]
    public void Values_SomeTimeApart_CorrelateAsARandomTelegraph(double perMin, int cells)
    {
        const int Count = 40_000;
        double p = perMin / 60;
        double expected = Math.Pow(1 - p, cells - 1) * (1 - p + (p * p / 6));
        double sum = 0;
        for (int i = 0; i < Count; i++)
        {
            var telegraph = new AmbientSwitch(new KeyedRandom((ulong)i, "test"), perMin, 1e-9);
            double t = 3 + (0.5 * (i + 0.5) / Count);
            double first = telegraph.At(t) - 0.5;
            sum += 4 * first * (telegraph.At(t + (0.5 * cells)) - 0.5);
        }

        double error = Math.Sqrt((1 - (expected * expected)) / Count);
        Assert.That(sum / Count, Is.EqualTo(expected).Within(4 * Math.Max(error, 1 / Math.Sqrt(Count) * 0.05)));
    }

    // Of n candidates each changes something with p/2, independent of the others: mean n p/2, variance n p/2 (1 − p/2) (binomial).
    [TestCase(2)]
    [TestCase(20)]
    [TestCase(60)]
    public void Changes_InAMinute_AreAsManyAsTheKnobSays(double perMin)
    {
        const int Seconds = 30_000;
        var telegraph = new AmbientSwitch(new KeyedRandom(3, "test"), perMin, 1e-9);
        double before = telegraph.At(0);
        int changes = 0;
        for (int i = 1; i <= Seconds * 200; i++)
        {
            double now = telegraph.At(i / 200.0);
            changes += now != before ? 1 : 0;
            before = now;
        }

        double half = perMin / 60 / 2;
        double n = Seconds * 2;

        // Two candidates of neighbouring cells within 5 ms hide each other: one pair in some 5,000 (0.005²/2/0.25).
        Assert.That(changes, Is.EqualTo(n * half).Within((4 * Math.Sqrt(n * half * (1 - half))) + (n * half / 2500)));
    }

    // One knob, one change: at a low rate every change is one that a higher rate has too, and leads to the same state.
    [Test]
    public void Rate_Higher_MovesNoChange()
    {
        var low = new AmbientSwitch(new KeyedRandom(5, "test"), 5, Ramp);
        var high = new AmbientSwitch(new KeyedRandom(5, "test"), 40, Ramp);
        double before = low.At(0);
        high.At(0);
        int seen = 0;
        for (int i = 1; i < 600_000; i++)
        {
            double now = low.At(i / 1000.0);
            double other = high.At(i / 1000.0);
            if (now != before && now is 0 or 1 && before is not (0 or 1))
            {
                // The end of an edge: the other telegraph is there as well, unless its next edge has begun within these 20 ms.
                Assert.That(Math.Abs(other - now), Is.LessThan(1e-9).Or.InRange(1e-6, 0.95), $"at {i} ms");
                seen++;
            }

            before = now;
        }

        Assert.That(seen, Is.InRange(25, 80));
    }

    // The edge is 3x² − 2x³; two points of it tell where it began.
    [Test]
    public void Edge_Alone_IsTheCubic()
    {
        const double Long = 0.2;
        var telegraph = new AmbientSwitch(new KeyedRandom(9, "test"), 3, Long);
        double[] values = [.. Enumerable.Range(0, 200_000).Select(i => telegraph.At(i / 1000.0))];
        int begin = Enumerable.Range(1, values.Length - 401).First(i => values[i - 1] is 0 or 1 && values[i] != values[i - 1] && values[i + 300] is 0 or 1);
        double from = values[begin - 1];

        // x from the first value on the edge: v = 3x² − 2x³, solved by Newton.
        double v = Math.Abs(values[begin + 100] - from);
        double x = 0.5;
        for (int k = 0; k < 50; k++)
        {
            x -= ((3 * x * x) - (2 * x * x * x) - v) / ((6 * x) - (6 * x * x));
        }

        for (int i = -99; i < 90; i++)
        {
            double at = x + (i / 1000.0 / Long);
            double expected = at <= 0 ? 0 : at >= 1 ? 1 : (3 * at * at) - (2 * at * at * at);
            Assert.That(Math.Abs(values[begin + 100 + i] - from), Is.EqualTo(expected).Within(1e-9), $"{i} ms");
        }
    }

    // Half a minute of ramp with a change every half second at most: edges overlap, the light stays light.
    [Test]
    public void Edges_ThatOverlap_StayBetweenZeroAndOne()
    {
        var telegraph = new AmbientSwitch(new KeyedRandom(1, "test"), 60, 30);
        double[] values = [.. Enumerable.Range(0, 60_000).Select(i => telegraph.At(i / 50.0))];
        Assert.That(values.Min(), Is.InRange(0, 0.45));
        Assert.That(values.Max(), Is.InRange(0.55, 1));
        Assert.That(values.Zip(values.Skip(1), (a, b) => Math.Abs(b - a)).Max(), Is.LessThan(0.02));
    }

    // A day without a look: the state is the one that looking all the time finds.
    [Test]
    public void At_AfterALongTime_IsTheSameAsOnTheWay()
    {
        var often = new AmbientSwitch(new KeyedRandom(4, "test"), 60, 5);
        var seldom = new AmbientSwitch(new KeyedRandom(4, "test"), 60, 5);
        for (int i = 0; i <= 300_000; i++)
        {
            double now = often.At(i / 100.0);
            if (i % 30_011 == 0)
            {
                Assert.That(seldom.At(i / 100.0), Is.EqualTo(now));
            }
        }
    }

    [Test]
    public void Fill_AnyCut_GivesTheSameBits()
    {
        var grid = new SampleGrid(0.00025, 0.01);
        double[] whole = new double[20_000];
        new AmbientSwitch(new KeyedRandom(4, "test"), 30, 0.7).Fill(whole, grid, 0);
        var cut = new AmbientSwitch(new KeyedRandom(4, "test"), 30, 0.7);
        double[] values = new double[20_000];
        for (int done = 0, length = 1; done < values.Length; done += length, length = (length % 97) + 1)
        {
            length = Math.Min(length, values.Length - done);
            cut.Fill(values.AsSpan(done, length), grid, done);
            cut = cut.Copy();
        }

        Assert.That(values, Is.EqualTo(whole));
    }

    // One slot reads a second on, the next one asks for the same second again.
    [TestCase(0.02)]
    [TestCase(2)]
    [TestCase(30)]
    public void At_EarlierThanTheLatest_IsTheSameWithinWhatIsRemembered(double rampSeconds)
    {
        var forward = new AmbientSwitch(new KeyedRandom(4, "test"), 60, rampSeconds);
        var back = new AmbientSwitch(new KeyedRandom(4, "test"), 60, rampSeconds, 3);
        var grid = new SampleGrid(0.00025, 0.01);
        double[] filled = new double[150];
        for (int second = 0; second < 200; second++)
        {
            back.At(second + 2.9);
            for (int i = 0; i < 100; i++)
            {
                double seconds = second + (i / 100.0);
                Assert.That(back.At(seconds), Is.EqualTo(forward.At(seconds)), $"at {seconds} s");
            }

            back.Fill(filled, grid, (second * 100L) + 20);
            Assert.That(filled, Is.EqualTo(Enumerable.Range(20, 150).Select(i => back.At(grid.Seconds((second * 100L) + i)))), $"{second} s");
        }
    }

    // What is called steady is: every value between is the one told, and what is not steady is seen to change.
    [Test]
    public void IsSteady_OverAStretch_IsWhetherNothingChangesThere()
    {
        var telegraph = new AmbientSwitch(new KeyedRandom(6, "test"), 20, 0.3, 1);
        int steady = 0;
        int restless = 0;
        for (int i = 0; i < 2000; i++)
        {
            double begin = 0.64 * i;
            bool isSteady = telegraph.IsSteady(begin, begin + 0.64, out double value);
            double[] values = [.. Enumerable.Range(0, 641).Select(k => telegraph.At(begin + (k / 1000.0)))];
            if (isSteady)
            {
                Assert.That(values, Is.All.EqualTo(value), $"from {begin} s");
                steady++;
            }
            else
            {
                restless++;

                // An edge that only just begins or ends within a millisecond may not be seen.
                restless -= values.Max() == values.Min() ? 1 : 0;
            }
        }

        // An edge begins some ten times a minute, and touches 0.94 s of stretches.
        Assert.That(restless, Is.InRange(150, 600));
        Assert.That(steady, Is.GreaterThan(2000 - 620));
    }

    [Test]
    public void New_ToRememberMoreThanItCan_IsRefused() => Assert.That(
        () => new AmbientSwitch(new KeyedRandom(6, "test"), 20, 0.3, 31), Throws.TypeOf<ArgumentOutOfRangeException>());
}
