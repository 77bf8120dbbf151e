// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Pacing spikes of 0.5 ms through a front end that spreads them over some samples.</summary>
[TestFixture]
public sealed class PacingSpikeTests
{
    private const double BeforeS = 0.06;

    // At 500 Hz a spike of 2 mV may fall between two samples so that less than 0.2 mV is left of it: no matter, and not always seen.
    [TestCase(500, 5, 1)]
    [TestCase(500, -2, 0.85)]
    [TestCase(1000, 5, 1)]
    [TestCase(1000, -2, 1)]
    public void Take_SpikesFromFiveHundredHertzOn_AreFoundInTheSignal(int rateHz, double millivolts, double leastShare)
    {
        var ecg = new SyntheticEcg { RateHz = rateHz, NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        List<BeatEvent> without = BeatStream.Run(codes, rateHz);
        ushort[] status = AddSpikes(codes, ecg, millivolts);
        Array.Clear(status);
        List<BeatEvent> found = BeatStream.Run(codes, rateHz, status);
        Same(found, without, rateHz, leastShare);
    }

    [TestCase(125)]
    [TestCase(250)]
    public void Take_FlaggedSpikesBelow_AreBridged(int rateHz)
    {
        var ecg = new SyntheticEcg { RateHz = rateHz, NoiseMillivolts = 0.005 };
        int[] codes = ecg.Make(60, 1);
        List<BeatEvent> without = BeatStream.Run(codes, rateHz);
        ushort[] status = AddSpikes(codes, ecg, 20);
        List<BeatEvent> found = BeatStream.Run(codes, rateHz, status);
        Same(found, without, rateHz);
    }

    [TestCase(500)]
    [TestCase(1000)]
    public void Take_NoSpikes_NothingIsPaced(int rateHz)
    {
        // A narrow tall QRS of a newborn (40 ms, 3 mV) is no spike either.
        int[] codes = new SyntheticEcg { RateHz = rateHz, NoiseMillivolts = 0.02 }.Make(60, 1);
        for (int i = 0; i < codes.Length; i++)
        {
            double q = ((i / (double)rateHz) % 0.5) - 0.25;
            codes[i] += (int)Math.Round(3000 * Math.Max(0, 1 - (Math.Abs(q) / 0.02)));
        }

        List<BeatEvent> found = BeatStream.Run(codes, rateHz);
        Assert.That(found, Has.Count.GreaterThan(100));
        Assert.That(found.Select(b => b.IsPaced), Is.All.False);
    }

    [Test]
    public void Next_CleanEcg_ComesOutAsItWentIn()
    {
        int[] codes = new SyntheticEcg { RateHz = 500 }.Make(20, 1);
        var filter = new SpikeFilter();
        filter.Start(500, 256_000);
        filter.Restart(codes[0]);
        var output = new List<int>();
        foreach (int code in codes)
        {
            Assert.That(filter.Next(code, false, out int clean), Is.False);
            output.Add(clean);
        }

        Assert.That(output.Skip(filter.Delay), Is.EqualTo(codes.SkipLast(filter.Delay)));
    }

    private static void Same(List<BeatEvent> found, List<BeatEvent> without, int rateHz, double leastShare = 1)
    {
        Assert.That(found, Has.Count.EqualTo(without.Count));
        for (int i = 0; i < found.Count; i++)
        {
            double shiftMs = 1000.0 * (found[i].RPeak.In256 - without[i].RPeak.In256) / 256 / rateHz;
            Assert.That(Math.Abs(shiftMs), Is.LessThan(1), $"beat {i}");
        }

        Assert.That(without.Select(b => b.IsPaced), Is.All.False);
        Assert.That(found.Count(b => b.IsPaced), Is.GreaterThanOrEqualTo(leastShare * found.Count));
    }

    /// <summary>Spikes before every beat: an impulse of 0.5 ms through two equal poles at 0.4 of the rate, the first sample after it flagged.</summary>
    private static ushort[] AddSpikes(int[] codes, SyntheticEcg ecg, double millivolts)
    {
        var status = new ushort[codes.Length];
        double omega = 2 * Math.PI * 0.4 * ecg.RateHz / Math.Sqrt(Math.Sqrt(2) - 1);
        foreach (double peak in ecg.PeaksS)
        {
            double t = peak - BeforeS;
            int first = (int)Math.Ceiling(t * ecg.RateHz);
            status[first] = SampleFlags.PacingSpike;
            for (int i = first; i < first + 10; i++)
            {
                double since = (i / (double)ecg.RateHz) - t;
                codes[i] += (int)Math.Round(millivolts * 1000 * 0.0005 * omega * omega * since * Math.Exp(-omega * since));
            }
        }

        return status;
    }
}
