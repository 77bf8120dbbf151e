// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

/// <summary>Early wide beats with pauses: in their rhythm nothing is alike, and a beat that is missed leaves an interval of two.</summary>
/// <remarks>
/// That an early ventricular beat and its pause last as long as two sinus intervals (a fully compensatory pause) is handbook knowledge of electrocardiography, from memory.
/// Truth is the count of beats that made each series; "w" ends an interval at a wide early beat, "n" at a narrow one, "l" behind it at one that was found by looking back.
/// </remarks>
[TestFixture]
public sealed class EarlyPairsTests
{
    private const int Ms = 256; // 1/256 ticks in a millisecond of a clock of 1 kHz

    // Two normal intervals of 800 ms, then one of 300 and its pause of 1300: four beats in 3.2 s are 75 a minute.
    private const string Quadrigeminy = "800 800 300w 1300 800 800 300w 1300 800 800 300w 1300 800 800 300w 1300";

    [Test]
    public void Add_EveryFourthEarly_IsTheMeanRateAlsoWithTheEarlyBeatCutOff()
    {
        List<(int At, int Milli)> given = Rates(Quadrigeminy + " 800 800", out _);

        Assert.That(given.Where(g => g.At >= 12_800).Select(g => g.Milli), Has.Some.EqualTo(75_000));

        // 8 intervals from before a pause to before an early beat: 1300 + 4 × 800 + 300 + 1300 + 800.
        Assert.That(given.Select(g => g.Milli), Is.All.InRange(67_000, 85_000));
        Assert.That(given, Has.Count.GreaterThan(8));
    }

    // One early beat is missed: 1600 ms are one interval. While that is in the window the count is one short, an eighth of the rate.
    [TestCase(0, false)]
    [TestCase(1, false)]
    [TestCase(2, true, Description = "eight intervals since")]
    public void Add_EarlyBeatMissedAmongOthers_IsInNoReading(int more, bool isGiven)
    {
        string series = Quadrigeminy + " 800 800 1600" + string.Concat(Enumerable.Repeat(" 800 800 300w 1300", more));
        List<(int At, int Milli)> given = Rates(series, out int last);
        int missed = last - (more * 3200);

        Assert.That(given.Where(g => g.At < missed), Is.Not.Empty);
        Assert.That(given.Where(g => g.At >= missed && g.At < missed + 6400), Is.Empty, "with the missed one in the window");
        Assert.That(given.Contains((last, 75_000)), Is.EqualTo(isGiven));
    }

    // Where two are missed in one window, the place recurs as in a heart that skips beats.
    [Test]
    public void Add_TwoMissedRunning_AreInNoReading()
    {
        List<(int At, int Milli)> given = Rates(Quadrigeminy + " 800 800 1600 800 800 1600 800", out int last);

        Assert.That(given.Where(g => g.At >= last - 4000), Is.Empty);
    }

    // A false beat in the middle of a pause: one too many.
    [Test]
    public void Add_PauseCutInTwo_IsInNoReading()
    {
        List<(int At, int Milli)> given = Rates(Quadrigeminy + " 800 800 300w 650 650 800 800", out int last);

        Assert.That(given.Where(g => g.At > last - 2250), Is.Empty);
    }

    // A beat that was found by looking back is believed where the count is that of usual intervals, within a quarter of one. It does not say itself what is usual: in the
    // pause of a blocked beat there is often a false one. Without wide ones nothing is usual.
    [TestCase("w", "wl", true)]
    [TestCase("wl", "wl", false)]
    [TestCase("n", "nl", false)]
    public void Add_BeatsFoundByLookingBack_AreReadWhereTheirCountFits(string before, string latest, bool expected)
    {
        List<(int At, int Milli)> given = Rates(Quadrigeminy.Replace("w", before, StringComparison.Ordinal) + $" 800 800 300{latest} 1300", out int last);

        Assert.That(given.Any(g => g.At == last && g.Milli == 75_000), Is.EqualTo(expected));
    }

    // The last eight intervals are 300 ms longer than eight usual ones: three eighths of one.
    [TestCase("w", true)]
    [TestCase("wl", false)]
    public void Add_CountNearlyHalfOff_IsReadOfSureBeatsOnly(string latest, bool expected)
    {
        List<(int At, int Milli)> given = Rates(Quadrigeminy + $" 800 800 300{latest} 1600", out int last);

        Assert.That(given.Any(g => g.At == last), Is.EqualTo(expected));
    }

    // The heart slows: what is usual follows.
    [Test]
    public void Usual_FollowsPairs()
    {
        var pairs = default(EarlyPairs);
        Assert.That(pairs.Usual, Is.Zero);
        pairs.Add(1300, 300, 800, isAfterWide: true);
        Assert.That(pairs.Usual, Is.EqualTo(800));
        pairs.Add(1500, 340, 920, isAfterWide: true);
        Assert.That(pairs.Usual, Is.EqualTo(830), "a quarter of the way to 920");
    }

    [TestCase(1300, 300, 800, true, 800)]
    [TestCase(1300, 300, 800, false, 0, Description = "narrow")]
    [TestCase(900, 700, 800, true, 0, Description = "not long against the one before")]
    [TestCase(1550, 300, 800, true, 0, Description = "a quarter of an interval too long")]
    [TestCase(1050, 300, 800, true, 0, Description = "a quarter too short: not compensatory")]
    public void Usual_IsOfWideEarlyBeatsWithTheirPause(int pause, int early, int middle, bool isWide, int expected)
    {
        var pairs = default(EarlyPairs);
        pairs.Add(pause, early, middle, isWide);

        Assert.That(pairs.Usual, Is.EqualTo(expected));
    }

    [Test]
    public void Usual_HoldsForSixteenIntervals()
    {
        var pairs = default(EarlyPairs);
        pairs.Add(1300, 300, 800, isAfterWide: true);
        for (int i = 1; i <= 16; i++)
        {
            Assert.That(pairs.Usual, Is.EqualTo(800), $"{i - 1} later");
            Assert.That(pairs.BeginsWithPause, Is.EqualTo(i == 8), $"{i - 1} later");
            pairs.Add(800, 800, 800, isAfterWide: false);
        }

        Assert.That(pairs.Usual, Is.Zero);
    }

    private static List<(int At, int Milli)> Rates(string series, out int last)
    {
        var rate = new HeartRate();
        rate.Start(new CommonClock(1000), ReadingKind.HeartRateEcg);
        var given = new List<(int, int)>();
        var early = default(EarlyPairs);
        last = 0;
        rate.Add(0, true, 255);
        foreach (string word in series.Split(' '))
        {
            last += int.Parse(word.TrimEnd('w', 'n', 'l'), System.Globalization.CultureInfo.InvariantCulture);
            if (rate.Add(last * Ms, false, word.EndsWith('l') ? (byte)64 : (byte)255, word.Contains('w', StringComparison.Ordinal), ref early))
            {
                given.Add((last, rate.RateMilliBpm));
            }
        }

        return given;
    }
}
