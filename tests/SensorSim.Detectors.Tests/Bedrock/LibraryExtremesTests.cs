// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;

namespace SensorSim.Detectors.Tests.Bedrock;

/// <summary>A minute of what no sensor should give: the library stays sane. Run with overflow checking by tests/overflow.sh.</summary>
[TestFixture]
public sealed class LibraryExtremesTests
{
    private const int Highest = 8_388_607;
    private const int Lowest = -8_388_608;

    private static IEnumerable<TestCaseData> Vectors()
    {
        (int Ecg, int Light, int Accel)[] rates = [(250, 100, 50), (1000, 500, 400), (125, 25, 25)];
        foreach ((int ecg, int light, int accel) in rates)
        {
            foreach ((string name, Func<int, int, Random, int> code) in Codes())
            {
                yield return new TestCaseData(ecg, light, accel, code).SetArgDisplayNames($"{name} at {ecg}/{light}/{accel} Hz");
            }
        }
    }

    private static IEnumerable<(string Name, Func<int, int, Random, int> Code)> Codes()
    {
        yield return ("highest", (_, _, _) => Highest);
        yield return ("lowest", (_, _, _) => Lowest);
        yield return ("zero", (_, _, _) => 0);
        yield return ("rails every sample", (i, _, _) => i % 2 == 0 ? Highest : Lowest);
        yield return ("rails every seven", (i, _, _) => (i / 7) % 2 == 0 ? Highest : Lowest);
        yield return ("rails at heart rate", (i, rate, _) => 2 * i / rate % 2 == 0 ? Highest : Lowest);
        yield return ("rails at twice a second, channels apart", (i, rate, r) => 4 * i / rate % 2 == 0 ? Highest - r.Next(3) : Lowest + r.Next(3));
        yield return ("rails at random", (_, _, r) => r.Next(2) == 0 ? Highest : Lowest);
        yield return ("random", (_, _, r) => r.Next(Lowest, Highest + 1));
        yield return ("full-scale sine of 1.2 Hz", (i, rate, _) => (int)(Highest * Math.Sin(2 * Math.PI * 1.2 * i / rate)));
        yield return ("steps between still stretches", (i, rate, r) => i / (3 * rate) % 2 == 0 ? Highest : Lowest + r.Next(100));
        yield return ("impulses", (i, rate, _) => i % rate == 0 ? Highest : Lowest);
    }

    [TestCaseSource(nameof(Vectors))]
    public void Take_AMinuteOfExtremes_StaysSane(int ecgHz, int lightHz, int accelHz, Func<int, int, Random, int> code)
    {
        LibraryFeed feed = Extreme(ecgHz, lightHz, accelHz, code);
        List<Answer> answers = feed.RunAll(() => long.MaxValue / 2);
        foreach (Answer a in answers)
        {
            ExpectSane(a, feed);
        }
    }

    // Status words of which any bit may be set at any time, on codes that may be anything.
    [Test]
    public void Take_AnyStatus_StaysSaneAndShowsNoCut([Range(5001, 5004)] int seed)
    {
        var random = new Random(seed);
        LibraryFeed feed = Extreme(250, 100, 50, (i, _, r) => i % 700 < 350 ? r.Next(Lowest, Highest + 1) : r.Next(1000));
        for (int role = 0; role < LibraryFeed.Roles; role++)
        {
            ushort status = 0;
            ushort[] all = feed.Status((ChannelRole)role);
            for (int i = 0; i < all.Length; i++)
            {
                status = random.Next(40) == 0 ? (ushort)random.Next(65_536) : random.Next(10) == 0 ? (ushort)0 : status;
                all[i] = status;
            }
        }

        List<Answer> whole = feed.RunAll(() => long.MaxValue / 2);
        Assert.That(feed.RunAll(() => 7), Is.EqualTo(whole));
        foreach (Answer a in whole)
        {
            ExpectSane(a, feed);
        }
    }

    private static LibraryFeed Extreme(int ecgHz, int lightHz, int accelHz, Func<int, int, Random, int> code)
    {
        var feed = new LibraryFeed(60, ecgHz, lightHz, accelHz);
        for (int role = 0; role < LibraryFeed.Roles; role++)
        {
            var random = new Random(role);
            int[] codes = feed.Codes((ChannelRole)role);
            for (int i = 0; i < codes.Length; i++)
            {
                int c = code(i, feed.Setup[(ChannelRole)role].RateHz, random);

                // An accelerometer has at most 20 bits.
                codes[i] = role >= (int)ChannelRole.AccelX ? c >> 4 : c;
            }
        }

        return feed;
    }

    private static void ExpectSane(in Answer a, LibraryFeed feed)
    {
        Assert.That(a.EmittedTick, Is.InRange(0, feed.EndTick));
        Assert.That(a.Place.Sample, Is.InRange(-feed.Setup[a.Role].RateHz, feed.EndTick / feed.Setup[a.Role].TicksPerSample));
        if (a.Kind is AnswerKind.GateShut or AnswerKind.JointGateShut)
        {
            Assert.That(a.Value, Is.InRange(1, 8));
        }

        if (a.Kind != AnswerKind.Reading)
        {
            return;
        }

        Assert.That(a.WindowSamples, Is.GreaterThanOrEqualTo(0));
        (double least, double most) = a.Reading switch
        {
            ReadingKind.HeartRateEcg or ReadingKind.HeartRatePulse or ReadingKind.HeartRateFused => (10, 350),
            ReadingKind.Spo2 => (0, 100),
            ReadingKind.PerfusionIndex => (0, 200),
            ReadingKind.RespirationRate => (3, 70),
            ReadingKind.Cadence => (0, 300),
            ReadingKind.Arrival or ReadingKind.ArrivalSpot => (50, 500),
            _ => (0, 10_000),
        };
        Assert.That(a.Value / 1000.0, Is.InRange(least, most), a.Reading.ToString());
    }
}
