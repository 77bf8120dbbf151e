// SPDX-License-Identifier: MIT
using SensorSim.Detectors.CLibraries;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.CLibraries;

/// <summary>Good C libraries, in this process and in a child.</summary>
[TestFixture]
public sealed class CLibraryTests : TestLibraries
{
    [TestCase(true)]
    [TestCase(false)]
    public void Open_Library_TellsNameConstantsAndIdentity(bool isInProcess)
    {
        string path = Threshold();
        using var factory = new CLibraryFactory(path, isInProcess);

        // sha256sum of the system says the same of the file.
        string sum = SensorSim.Tests.Shared.CCompiler.Run("sha256sum", path).Split(' ')[0];
        Assert.That(factory.Identity, Is.EqualTo("threshold 1.0 sha256:" + sum));
        Assert.That(
            factory.Constants.Select(k => (k.Name, k.Unit, k.Minimum, k.Maximum, k.Default, k.IsWhole)),
            Is.EqualTo(new[] { ("detector.refractory_ms", "ms", 100.0, 600.0, 250.0, true), ("detector.threshold_percent", "%", 10, 90, 50, true) }));
    }

    [Test]
    public void Process_ChildAndInProcess_GiveTheSameForEveryCut()
    {
        string path = Threshold();
        StreamMaker maker = Maker(20);
        maker.Lose(0, 2000, 300);
        using var child = new CLibraryFactory(path);
        using var here = new CLibraryFactory(path, isInProcess: true);
        using IDetector there = child.Create(NoConstants);
        using IDetector near = here.Create(NoConstants);

        List<Mark> expected = Run(near, maker).Marks;
        var random = new Random(1);

        Assert.That(expected, Has.Count.GreaterThan(15));
        Assert.That(Run(there, maker).Marks, Is.EqualTo(expected));
        Assert.That(Run(there, maker, () => random.Next(1, 700)).Marks.Select(m => (m.Sample, m.EmittedTick)), Is.EqualTo(expected.Select(m => (m.Sample, m.EmittedTick))));
        Assert.That(Run(near, maker, () => random.Next(1, 5)).Marks, Is.EqualTo(expected));
        Assert.That(Run(there, maker, () => maker.EndTick).Marks, Is.EqualTo(expected), "one block longer than a second");

        // The made-up stream has its R peaks at 0.6 s + k × 0.82 s; the steepest 12 ms end 4 ms before a peak or some 20 ms after it.
        foreach (Mark mark in expected)
        {
            double since = (mark.Sample / 250.0) - StreamMaker.FirstRS;
            Assert.That(since - (Math.Round(since / StreamMaker.RrS) * StreamMaker.RrS), Is.EqualTo(0.015).Within(0.02));
        }
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Create_Constants_Act(bool isInProcess)
    {
        using var factory = new CLibraryFactory(Threshold(), isInProcess);
        using IDetector usual = factory.Create(NoConstants);
        using IDetector slow = factory.Create(new Dictionary<string, double> { ["detector.refractory_ms"] = 600 });
        using IDetector low = factory.Create(new Dictionary<string, double> { ["detector.threshold_percent"] = 10 });
        StreamMaker maker = Maker();

        int beats = Run(usual, maker).Marks.Count;
        Assert.That(Run(slow, maker).Marks, Has.Count.EqualTo(beats), "0.82 s from beat to beat");
        Assert.That(Run(low, maker).Marks, Has.Count.GreaterThan(beats), "waves that are no R");
    }

    [TestCase("detector.nonsense", 1, "there is no constant detector.nonsense; it has detector.refractory_ms, detector.threshold_percent")]
    [TestCase("detector.refractory_ms", 99, "detector.refractory_ms = 99 must be 100 to 600, whole ms")]
    [TestCase("detector.refractory_ms", 100.5, "detector.refractory_ms = 100.5 must be 100 to 600, whole ms")]
    [TestCase("detector.refractory_ms", double.NaN, "detector.refractory_ms = NaN must be 100 to 600, whole ms")]
    public void Create_WrongConstant_IsRefused(string name, double value, string sentence)
    {
        using var factory = new CLibraryFactory(Threshold(), isInProcess: true);
        Assert.That(
            () => factory.Create(new Dictionary<string, double> { [name] = value }),
            Throws.TypeOf<NotSupportedException>().With.Message.EndsWith(sentence));
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Process_SettingsRequests_ComeThrough(bool isInProcess)
    {
        using var factory = new CLibraryFactory(Bad("ASKS"), isInProcess);
        using IDetector detector = factory.Create(new Dictionary<string, double> { ["detector.current_ma"] = 12.5 });

        List<SettingsRequest> requests = Run(detector, Maker(5)).Requests;

        Assert.That(requests, Is.EqualTo(Enumerable.Repeat(new SettingsRequest(1, SensorSetting.LedCurrentMa, 12_500, 0), 3)));
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Start_LibraryRefuses_SaysWhyInOneLine(bool isInProcess)
    {
        using var factory = new CLibraryFactory(Bad("REFUSES"), isInProcess);
        using IDetector detector = factory.Create(NoConstants);
        for (int i = 0; i < 2; i++)
        {
            Assert.That(() => detector.Start(Maker().Format), Throws.TypeOf<NotSupportedException>().With.Message.EqualTo("needs 360 Hz, and a \"lead\""));
        }
    }

    [Test]
    public void Start_StreamWithoutEcg_NamesIt()
    {
        using var factory = new CLibraryFactory(Threshold());
        using IDetector detector = factory.Create(NoConstants);
        Assert.That(
            () => detector.Start(new StreamFormat([StreamMaker.Channel(ChannelName.Red, 100)])),
            Throws.TypeOf<NotSupportedException>().With.Message.Contains("has no ecg"));
    }

    [Test]
    public void Process_LibraryPrints_DisturbsNothing()
    {
        using var factory = new CLibraryFactory(Bad("PRINTS"));
        using IDetector detector = factory.Create(NoConstants);
        Assert.That(Run(detector, Maker(6)).Marks, Has.Count.EqualTo(6));
    }

    [Test]
    public void Children_DetectorsOneAfterTheOther_ShareOne()
    {
        using var factory = new CLibraryFactory(Threshold());
        StreamMaker maker = Maker();
        for (int i = 0; i < 5; i++)
        {
            using IDetector detector = factory.Create(NoConstants);
            Run(detector, maker);
            Run(detector, maker);
        }

        Assert.That(factory.ChildCount, Is.EqualTo(1));
        using IDetector first = factory.Create(NoConstants);
        using IDetector second = factory.Create(NoConstants);
        first.Start(maker.Format);
        second.Start(maker.Format);
        Assert.That(factory.ChildCount, Is.EqualTo(2), "two at the same time need two");
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Process_AfterWarmUp_AllocatesNothing(bool isInProcess)
    {
        using var factory = new CLibraryFactory(Threshold(), isInProcess);
        using IDetector detector = factory.Create(NoConstants);
        StreamMaker maker = Maker(60);
        detector.Start(maker.Format);
        var output = new DetectorOutput();
        var block = new SampleBlock(maker.Format, maker.Format.Clock.TicksPerSecond);
        long tick = 0;
        Feed();
        Assert.That(SensorSim.Tests.Shared.Allocations.Least(Feed), Is.Zero);

        void Feed()
        {
            for (long end = tick + (10 * block.MaximumTicks); tick < end; tick += block.MaximumTicks)
            {
                maker.Fill(block, tick, tick + block.MaximumTicks);
                detector.Process(block, output);
                output.Marks.Clear();
            }
        }
    }

    [Test]
    public void Create_FromSeveralThreads_GivesEachItsOwnChild()
    {
        using var factory = new CLibraryFactory(Threshold());
        StreamMaker maker = Maker();
        using IDetector alone = factory.Create(NoConstants);
        List<Mark> expected = Run(alone, maker).Marks;
        List<Mark>[] all = new List<Mark>[24];
        Parallel.For(0, all.Length, new ParallelOptions { MaxDegreeOfParallelism = 4 }, i =>
        {
            using IDetector detector = factory.Create(NoConstants);
            all[i] = Run(detector, maker).Marks;
        });

        Assert.That(all, Has.All.EqualTo(expected));
        Assert.That(factory.ChildCount, Is.InRange(2, 5));
    }

    // The structures as the compiler of the header lays them out, against those of this program.
    [Test]
    public unsafe void Structures_OfTheHeader_AreThoseHere()
    {
        File.WriteAllText(At("sizes.c"), """
            #include <stddef.h>
            #include <stdio.h>
            #include "sensorsim_detector.h"
            int main(void) {
                printf("%zu %zu %zu %zu %zu %zu %zu %zu %zu ", sizeof(sensorsim_channel), sizeof(sensorsim_format), sizeof(sensorsim_run),
                    sizeof(sensorsim_channel_block), sizeof(sensorsim_block), sizeof(sensorsim_mark), sizeof(sensorsim_settings_request),
                    sizeof(sensorsim_answers), sizeof(sensorsim_constant));
                printf("%zu %zu %zu %zu %zu", offsetof(sensorsim_channel, device), offsetof(sensorsim_mark, quality), offsetof(sensorsim_mark, channel),
                    offsetof(sensorsim_answers, requests), offsetof(sensorsim_constant, default_value));
                return 0;
            }
            """);
        string printed = SensorSim.Tests.Shared.CCompiler.Run(SensorSim.Tests.Shared.CCompiler.Build(At("sizes.c"), At("sizes")));
        CMark mark = default;
        CChannel channel = default;
        CAnswers answers = default;
        CConstant constant = default;
        long[] here =
        [
            sizeof(CChannel), sizeof(CFormat), sizeof(CRun), sizeof(CChannelBlock), sizeof(CBlock), sizeof(CMark), sizeof(CRequest), sizeof(CAnswers), sizeof(CConstant),
            channel.Device - (byte*)&channel, &mark.Quality - (byte*)&mark, (byte*)&mark.Channel - (byte*)&mark,
            (byte*)&answers.Requests - (byte*)&answers, (byte*)&constant.DefaultValue - (byte*)&constant,
        ];
        Assert.That(printed, Is.EqualTo(string.Join(' ', here)));
    }

    [Test]
    public void Numbers_OfTheHeader_AreThoseHere()
    {
        string header = File.ReadAllText(Path.Combine(Path.GetDirectoryName(SensorSim.Tests.Shared.CCompiler.Example)!, "sensorsim_detector.h"));
        int At(string from, string text) => header.IndexOf(text, header.IndexOf(from, StringComparison.Ordinal), StringComparison.Ordinal);
        foreach (MarkKindInfo kind in MarkKinds.All)
        {
            string name = kind.Kind == MarkKind.PacingSpike ? "PACING_SPIKE_MIDDLE" : kind.Text.ToUpperInvariant();
            Assert.That(At("enum sensorsim_mark_kind", $"SENSORSIM_{name} = {(int)kind.Kind}"), Is.Positive, name);
        }

        foreach (ChannelName channel in Enum.GetValues<ChannelName>())
        {
            Assert.That(At("enum sensorsim_channel_name", $"SENSORSIM_{channel.Text().ToUpperInvariant()} = {(int)channel}"), Is.Positive, channel.Text());
        }

        foreach (SensorSetting setting in Enum.GetValues<SensorSetting>())
        {
            Assert.That(At("enum sensorsim_setting ", $"SENSORSIM_{setting.Text().ToUpperInvariant()} = {(int)setting}"), Is.Positive, setting.Text());
        }

        (string, SampleStatus)[] status =
        [
            ("LEAD_OFF_POSITIVE", SampleStatus.LeadOffPositive), ("LEAD_OFF_NEGATIVE", SampleStatus.LeadOffNegative), ("LEAD_OFF_THIRD", SampleStatus.LeadOffThird),
            ("SATURATED", SampleStatus.Saturated), ("OVER_RANGE", SampleStatus.OverRange), ("BUFFER_OVERFLOW", SampleStatus.BufferOverflow),
            ("PACING_SPIKE", SampleStatus.PacingSpike), ("NO_CONTACT", SampleStatus.NoContact),
        ];
        Assert.That(status, Has.Length.EqualTo(Enum.GetValues<SampleStatus>().Length - 1));
        foreach ((string name, SampleStatus flag) in status)
        {
            Assert.That(At("enum sensorsim_status", $"SENSORSIM_{name} = {(int)flag}"), Is.Positive, name);
        }
    }
}
