// SPDX-License-Identifier: MIT
using SensorSim.Examples.Threshold;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Testing.Tests.Support;

namespace SensorSim.Testing.Tests;

/// <summary>Detectors that keep the contract and such that break it in one way each.</summary>
[TestFixture]
public sealed class ContractTests
{
    private readonly GivenScenario _lossy = Given.Scenario("docs/examples/testing/scenarios/lossy-radio.toml").Lasting(30);

    [Test]
    public void ExampleAndLibrary_KeepIt()
    {
        Assert.That(UnderTest.Class<ThresholdDetector>(), Keeps.TheContract.On(_lossy.SeedsFrom(1, 2)));
        using UnderTest library = UnderTest.Library();
        Assert.That(library, Keeps.TheContract.On(_lossy));
    }

    [Test]
    public void DetectorThatMarksBlocks_BreaksItWithOtherCuts()
    {
        string message = Messages.OfFailure(UnderTest.Class<BlockMarker>(), Keeps.TheContract.On(_lossy));
        Assert.That(message, Does.Contain("with seed 1, blocks of 100 ms: mark 2 is ecg r_peak at sample 25 + 0/256, quality 255, in blocks of 1 s it was ecg r_peak at sample 250 + 0/256"));
    }

    [Test]
    public void DetectorThatRemembers_BreaksItWithASecondStart()
    {
        string message = Messages.OfFailure(UnderTest.Class<Rememberer>(), Keeps.TheContract.On(_lossy));
        Assert.That(message, Does.Contain("a second start: mark 1 is missing, in blocks of 1 s it was ecg r_peak of 1 at sample 0"));
    }

    [Test]
    public void DetectorThatThrows_IsToldWithItsSentence() => Assert.That(
        Messages.OfFailure(UnderTest.Class<BreakingDetector>(), Keeps.TheContract.On(_lossy)), Does.Contain("it threw InvalidOperationException: the table is full {0}"));

    [Test]
    public void Answers_AreRefused() => Assert.That(
        () => Keeps.TheContract.On(_lossy).ApplyTo(UnderTest.Answers([])), Throws.ArgumentException.With.Message.Contains("The contract is a detector's"));

    private sealed class BlockMarker : IDetector
    {
        public string Name => "blocks 1.0";

        public void Start(StreamFormat format)
        {
        }

        public void Process(SampleBlock block, DetectorOutput output)
        {
            if (block.Channels[0].Runs.Length > 0)
            {
                output.Marks.Add(new Mark { Channel = 0, Kind = MarkKind.RPeak, Sample = block.Channels[0].Runs[0].FirstIndex, Quality = 255, EmittedTick = block.EndTick });
            }
        }

        public void Flush(DetectorOutput output)
        {
        }

        public void Dispose()
        {
        }
    }

    private sealed class Rememberer : IDetector
    {
        private bool _hasGiven;

        public string Name => "remembers 1.0";

        public void Start(StreamFormat format)
        {
        }

        public void Process(SampleBlock block, DetectorOutput output)
        {
            if (!_hasGiven)
            {
                output.Marks.Add(new Mark { Channel = 0, Kind = MarkKind.RPeak, HasValue = true, ValueMilli = 1000, EmittedTick = block.EndTick });
            }

            _hasGiven = true;
        }

        public void Flush(DetectorOutput output)
        {
        }

        public void Dispose()
        {
        }
    }
}
