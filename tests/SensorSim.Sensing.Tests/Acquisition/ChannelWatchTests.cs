// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Sensing.Acquisition;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Acquisition;

/// <summary>Which stretches count as unusable: rules of this project (0.25 s, 0.1 s), counted out by hand at 250 Hz, 4 ms a sample.</summary>
public sealed class ChannelWatchTests
{
    private const long Ms = 1_000_000;
    private static readonly int[] s_rates = [1, 10, 50, 250, 333, 2000];

    [Test]
    public void See_NothingFlagged_TellsNothing() => Assert.That(Told(Words(1000)), Is.Empty);

    // The number of the settings is no flag, nor are a pacing spike, a lost sample before this one, or the third electrode.
    [TestCase(SampleStatus.None, 7)]
    [TestCase(SampleStatus.LeadOffThird, 0)]
    [TestCase(SampleStatus.PacingSpike, 0)]
    [TestCase(SampleStatus.BufferOverflow, 3)]
    public void See_FlagsThatMakeNothingUnusable_TellsNothing(SampleStatus flags, int settings)
    {
        ushort[] words = Words(1000);
        Array.Fill(words, (ushort)((int)flags | (settings << StatusWord.SettingsShift)), 200, 500);
        Assert.That(Told(words), Is.Empty);
    }

    [TestCase(SampleStatus.LeadOffPositive)]
    [TestCase(SampleStatus.LeadOffNegative)]
    [TestCase(SampleStatus.LeadOffNegative | SampleStatus.LeadOffThird)]
    public void See_ElectrodeOff_TellsTheStretch(SampleStatus flags) =>
        Assert.That(Told(Words(1000, (100, 199, flags))), Is.EqualTo(new[] { Line(AcquisitionKind.UnusableLeadOff, 400, 800) }));

    [Test]
    public void See_OneSampleOff_IsToldAtOnce()
    {
        var ring = new EventRing<AcquisitionEvent>(4);
        Watch().See(Words(1, (0, 0, SampleStatus.LeadOffPositive)), 50, ring);
        Assert.That(ring.TryTake(out AcquisitionEvent piece), Is.True);
        Assert.That((piece.BeginNs, piece.EndNs), Is.EqualTo((200 * Ms, 204 * Ms)));
    }

    // Samples 200 to 449 recover; the next saturation, 63 samples or 252 ms later, is one of its own; 62 samples or 248 ms is not.
    [Test]
    public void See_SaturationAfterLeadOff_BelongsToItUntilItPauses()
    {
        ushort[] words = Words(
            1000,
            (100, 199, SampleStatus.LeadOffPositive),
            (210, 449, SampleStatus.Saturated),
            (511, 520, SampleStatus.OverRange),
            (583, 700, SampleStatus.Saturated));
        Assert.That(Told(words), Is.EqualTo(new[]
        {
            Line(AcquisitionKind.UnusableLeadOff, 400, 521 * 4),
            Line(AcquisitionKind.UnusableSaturated, 583 * 4, 701 * 4),
        }));
    }

    [TestCase(24, false)]
    [TestCase(25, true)]
    public void See_Saturation_IsToldFromATenthOfASecondOn(int samples, bool isTold) =>
        Assert.That(Told(Words(1000, (300, 300 + samples - 1, SampleStatus.OverRange))).Length, Is.EqualTo(isTold ? 1 : 0));

    // A beat each 0.8 s, clipped for 20 ms: none of it is unusable.
    [Test]
    public void See_ClippedTipOfEveryBeat_IsUsable() =>
        Assert.That(Told(Words(5000, [.. Enumerable.Range(0, 24).Select(b => (200 * b, (200 * b) + 4, SampleStatus.OverRange))])), Is.Empty);

    // Five stretches of 20 ms, each 0.168 s after the one before: one stretch, back to the first. Of four, 80 ms, nothing is told.
    [TestCase(4, false)]
    [TestCase(5, true)]
    public void See_ShortOnesCloseTogether_AreOneStretchOnceTheyComeToATenthOfASecond(int count, bool isTold) =>
        Assert.That(
            Told(Words(1000, [.. Enumerable.Range(0, count).Select(k => (100 + (46 * k), 104 + (46 * k), SampleStatus.OverRange))])),
            Is.EqualTo(isTold ? new[] { Line(AcquisitionKind.UnusableSaturated, 400, 289 * 4) } : []));

    // Two spikes of 8 ms before each beat, 160 ms apart.
    [Test]
    public void See_ClippedPacingSpikes_AreUsable() =>
        Assert.That(
            Told(Words(5000, [.. Enumerable.Range(0, 40).Select(k => ((200 * (k / 2)) + (40 * (k % 2)), (200 * (k / 2)) + (40 * (k % 2)) + 1, SampleStatus.Saturated))])),
            Is.Empty);

    [Test]
    public void See_SaturationWithoutContact_IsToldOnceAsNoContact() =>
        Assert.That(
            Told(Words(1000, (100, 300, SampleStatus.NoContact | SampleStatus.OverRange))),
            Is.EqualTo(new[] { Line(AcquisitionKind.UnusableNoContact, 400, 1204) }));

    [Test]
    public void See_StretchAtTheEnd_ReachesToTheEndOfTheLastSample() =>
        Assert.That(
            Told(Words(1000, (900, 999, SampleStatus.Saturated))),
            Is.EqualTo(new[] { Line(AcquisitionKind.UnusableSaturated, 3600, 4000) }));

    [Test]
    public void See_AnyFlagsAndCuts_TellsWhatTheRulesSay() =>
        Gen.Select(Gen.Int, Gen.Int[1, 400].Array[1, 6], Gen.Int[0, s_rates.Length - 1]).Sample(
            (draw, cuts, pick) =>
            {
                int rate = s_rates[pick];
                ushort[] words = Draw(new Random(draw), 6000, rate);
                string[] expected = WatchOracle.Text(ChannelName.Ecg, rate, words);
                Assert.That(Told(words, rate, cuts), Is.EqualTo(expected), $"draw {draw}, cuts {string.Join(' ', cuts)}, {rate} Hz");
            },
            iter: 300,
            threads: 1);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(65536)]
    public void See_Blocks_TellTheSame(int cut)
    {
        ushort[] words = Draw(new Random(5), 100_000, 250);
        string[] expected = WatchOracle.Text(ChannelName.Ecg, 250, words);
        Assert.That(expected, Has.Length.GreaterThan(50));
        Assert.That(Told(words, 250, cut), Is.EqualTo(expected));
    }

    [Test]
    public void Copy_InTheMiddleOfAStretch_TellsTheRest()
    {
        ushort[] words = Words(1000, (100, 110, SampleStatus.OverRange), (150, 300, SampleStatus.OverRange));
        ChannelWatch watch = Watch();
        var ring = new EventRing<AcquisitionEvent>(64);
        var stretches = new Stretches();
        watch.See(words.AsSpan(0, 105), 0, ring);
        Assert.That(ring.Count, Is.Zero, "undecided");
        ChannelWatch copy = watch.Copy();
        watch.See(words.AsSpan(105), 105, ring);
        string[] original = Joined(ring);
        copy.See(words.AsSpan(105), 105, ring);
        stretches.Take(ring);
        Assert.That(stretches.Text, Is.EqualTo(original));
        Assert.That(original, Is.EqualTo(new[] { Line(AcquisitionKind.UnusableSaturated, 400, 301 * 4) }));
    }

    [Test]
    public void See_AfterWarmUp_AllocatesNothing()
    {
        ushort[] words = Draw(new Random(9), 20_000, 250);
        var ring = new EventRing<AcquisitionEvent>(4096);
        ChannelWatch watch = Watch();
        watch.See(words, 0, ring);
        ring.Clear();
        long before = GC.GetAllocatedBytesForCurrentThread();
        watch.See(words, 20_000, ring);
        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
        Assert.That(ring.Count, Is.GreaterThan(20));
    }

    private static ChannelWatch Watch(int rate = 250) => new(new ChannelFormat
    {
        Name = ChannelName.Ecg, Device = "sensor", RateHz = rate, Bits = 16, IsSigned = true, UnitPerCode = 1e-3,
    });

    private static ushort[] Words(int count, params (int First, int Last, SampleStatus Flags)[] flagged)
    {
        var words = new ushort[count];
        foreach ((int first, int last, SampleStatus flags) in flagged)
        {
            Array.Fill(words, (ushort)flags, first, last - first + 1);
        }

        return words;
    }

    // Stretches and pauses of random flags, from one sample to about half a second.
    private static ushort[] Draw(Random random, int count, int rate)
    {
        SampleStatus[] flags =
        [
            SampleStatus.LeadOffPositive, SampleStatus.OverRange, SampleStatus.Saturated, SampleStatus.OverRange, SampleStatus.NoContact,
            SampleStatus.NoContact | SampleStatus.OverRange, SampleStatus.LeadOffThird, SampleStatus.LeadOffNegative | SampleStatus.Saturated,
        ];
        var words = new ushort[count];
        for (int i = 0; i < count;)
        {
            i += random.Next(1, random.Next(4) == 0 ? rate : (rate / 3) + 2);
            int length = random.Next(1, (rate / (random.Next(2) == 0 ? 2 : 12)) + 2);
            SampleStatus flag = flags[random.Next(flags.Length)];
            for (int end = Math.Min(count, i + length); i < end; i++)
            {
                words[i] = (ushort)((int)flag | (3 << StatusWord.SettingsShift));
            }
        }

        return words;
    }

    private static string[] Told(ushort[] words, int rate = 250, params int[] cuts)
    {
        cuts = cuts.Length == 0 ? [words.Length] : cuts;
        ChannelWatch watch = Watch(rate);
        var ring = new EventRing<AcquisitionEvent>(4096);
        var stretches = new Stretches();
        for (int done = 0, i = 0; done < words.Length; i++)
        {
            int count = Math.Min(words.Length - done, cuts[i % cuts.Length]);
            watch.See(words.AsSpan(done, count), done, ring);
            stretches.Take(ring);
            done += count;
        }

        return stretches.Text;
    }

    private static string[] Joined(EventRing<AcquisitionEvent> ring)
    {
        var stretches = new Stretches();
        stretches.Take(ring);
        return stretches.Text;
    }

    private static string Line(AcquisitionKind kind, long beginMs, long endMs) => $"{ChannelName.Ecg} {kind} {beginMs * Ms} {endMs * Ms}";
}
