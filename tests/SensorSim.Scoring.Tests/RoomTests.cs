// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests;

/// <summary>Lists that begin small answer as those that have all room from the start, whether it comes by doubling or is taken in between.</summary>
public sealed class RoomTests
{
    private const int Capacity = 512;
    private const int Entries = 1400;

    [TestCase(int.MaxValue)]
    [TestCase(40)]
    [TestCase(300)]
    public void Lists_ThatGrow_AnswerAsThoseWithAllRoom(int reservedAt)
    {
        var values = (new TimedValues(Capacity, 2), new TimedValues(Capacity, Capacity));
        var beats = (new TruthBeats(Capacity, 2), new TruthBeats(Capacity, Capacity));
        var perBeat = (new BeatValues(Capacity, 2), new BeatValues(Capacity, Capacity));
        for (int i = 0; i < Entries; i++)
        {
            if (i == reservedAt)
            {
                values.Item1.Reserve();
                beats.Item1.Reserve();
                perBeat.Item1.Reserve();
            }

            // Pairs come the wrong way round.
            long at = (i ^ 1) * Second;
            values.Item1.Add(at, Math.Sin(i));
            values.Item2.Add(at, Math.Sin(i));
            beats.Item1.Add(at, i, TruthFlags.None);
            beats.Item2.Add(at, i, TruthFlags.None);
            perBeat.Item1.Add(i, i * 0.5);
            perBeat.Item2.Add(i, i * 0.5);
            long asked = (i * 7919L % (i + 1)) * Second;
            Assert.That(Of(values.Item1, asked), Is.EqualTo(Of(values.Item2, asked)));
            Assert.That(beats.Item1.Closest(asked, Second), Is.EqualTo(beats.Item2.Closest(asked, Second)));
            Assert.That((beats.Item1.KnownFromNs, beats.Item1.Total), Is.EqualTo((beats.Item2.KnownFromNs, beats.Item2.Total)));
            Assert.That(Of(perBeat.Item1, asked / Second), Is.EqualTo(Of(perBeat.Item2, asked / Second)));
            Assert.That(Of(perBeat.Item1, i), Is.EqualTo((true, i * 0.5)));
        }
    }

    [Test]
    public void ErrorHistogram_BinsInAnyOrder_CountAsWithAllRoom()
    {
        var growing = new ErrorHistogram(10, 14_990, 1);
        var whole = new ErrorHistogram(10, 14_990, 1);
        whole.Reserve(isSigned: true);
        foreach (long error in new long[] { 5, -331, 321, -14_990, 640, 641, 14_990, -14_991, 20_000, -320, 0, 14_981 })
        {
            growing.Add(error);
            whole.Add(error);
            for (int bin = -whole.BinsPerSide; bin < whole.BinsPerSide; bin++)
            {
                Assert.That(growing.CountIn(bin), Is.EqualTo(whole.CountIn(bin)));
            }

            Assert.That((growing.AbsoluteQuantile(0.5), growing.AbsoluteQuantile(0.95)), Is.EqualTo((whole.AbsoluteQuantile(0.5), whole.AbsoluteQuantile(0.95))));
        }

        Assert.That((growing.BeyondCount, growing.CountIn(1498), growing.CountIn(-1499)), Is.EqualTo((2, 2, 1)));
    }

    private static (double, double, double) Of(TimedValues values, long at)
    {
        values.TryMean(at - (30 * Second), at, out double mean);
        values.TryMedian(at - (30 * Second), at, out double median);
        values.TryLatest(at, 5 * Second, out double latest);
        return (mean, median, latest);
    }

    private static (bool, double) Of(BeatValues values, long id) => (values.TryFind(id, out double value), value);
}
