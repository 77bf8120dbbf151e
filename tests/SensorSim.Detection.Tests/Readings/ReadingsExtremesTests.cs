// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;
using SensorSim.Tests.Shared;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class ReadingsExtremesTests
{
    // Every stage on the same beats by clocks from 1 kHz to 1 GHz: only the rounding of places differs.
    [TestCase(500)]
    [TestCase(65_536)]
    [TestCase(1_000_000)]
    [TestCase(1_000_000_000)]
    public void AnyClock_SameBeats_GivesTheSameReadings(long ticksPerSecond)
    {
        List<Reading> expected = Everything(1000);
        List<Reading> given = Everything(ticksPerSecond);
        Assert.That(given.Select(r => r.Kind), Is.EqualTo(expected.Select(r => r.Kind)));
        for (int i = 0; i < given.Count; i++)
        {
            // Places round to 8 µs on the coarsest clock; rates near 100 bpm move by 100 µ of their value at most.
            Assert.That(given[i].ValueMilli, Is.EqualTo(expected[i].ValueMilli).Within(20 + (expected[i].ValueMilli / 10_000)), $"{i} {given[i].Kind}");
            Assert.That(given[i].Quality, Is.EqualTo(expected[i].Quality).Within(2));
            double windowS = given[i].WindowTicks256 / 256.0 / ticksPerSecond;
            Assert.That(windowS, Is.EqualTo(expected[i].WindowTicks256 / 256_000.0).Within(0.002));
        }

        Assert.That(given.Select(r => r.Kind).Distinct().Count(), Is.EqualTo(7));
    }

    // Codes at both ends of 24 bits, in any order, at the highest rate: what is given stays within its range.
    [Test]
    public void Oxygen_FullSwing_StaysWithinItsRange()
    {
        const int largest = (1 << 24) - 1;
        var random = new Random(1);
        var oxygen = new Oxygen();
        oxygen.Start(500, new CommonClock(1000), OxygenTable.Textbook);
        NoProbe probe = default;
        var pulse = new PulseEvent(default, default, default, largest, 255, 0, default, largest);
        int given = 0;
        for (int i = 0; i < 200_000; i++)
        {
            int infrared = i / 150 % 2 == 0 ? largest : 0;
            int red = random.Next(8) == 0 ? random.Next(largest + 1) : infrared;
            oxygen.Next(red, infrared, ref probe);
            if (i % 300 == 299 && oxygen.Pulse(pulse, i * 512L))
            {
                given++;
                Assert.That(oxygen.Latest.ValueMilli, Is.InRange(70_000, 100_000));
            }
        }

        Assert.That(given, Is.GreaterThan(100));
    }

    [Test]
    public void Respiration_FullSwing_StaysWithinItsRange()
    {
        var random = new Random(2);
        var respiration = new Respiration();
        respiration.Start(new CommonClock(1000));
        int given = 0;
        for (int i = 0; i < 2000; i++)
        {
            bool isIn = i / 3 % 2 == 0;
            long t = i * 180_000L;
            given += respiration.AddBeat(t, i == 0, isIn ? -(1 << 24) : (1 << 24) - 1) ? 1 : 0;
            given += respiration.AddPulse(t + 50_000, i == 0, isIn ? 1 << 24 : 1, isIn ? 1 << 24 : random.Next(9)) ? 1 : 0;
            Assert.That(respiration.Latest.ValueMilli, Is.InRange(0, 40_500));
        }

        Assert.That(given, Is.GreaterThan(0));
    }

    [Test]
    public void AllStages_AnHourOfBeats_AllocateNothing()
    {
        Everything(1000);
        var stages = new AllStages(1000);
        long bytes = Allocations.Least(() =>
        {
            for (int i = 0; i < 4000; i++)
            {
                stages.Beat(0.9, i % 40 == 0, 0.01 * (i % 5), null);
            }
        });
        Assert.That(bytes, Is.Zero);
    }

    private static List<Reading> Everything(long ticksPerSecond)
    {
        var random = new Random(7);
        var given = new List<Reading>();
        var stages = new AllStages(ticksPerSecond);
        for (int i = 0; i < 400; i++)
        {
            stages.Beat(0.6 + (0.02 * Math.Sin(i * 0.9)) + (0.004 * random.NextDouble()), i == 0, Math.Sin(i * 0.9), given);
        }

        return given;
    }

    private sealed class AllStages
    {
        private readonly long _ticksPerSecond;
        private double _t = 1;
        private HeartRate _rate;
        private FusedRate _fused;
        private RrVariability _variability;
        private RhythmCheck _rhythm;
        private Arrival _arrival;
        private ArrivalSpot _spot;
        private PerfusionIndex _index;
        private Respiration _respiration;

        public AllStages(long ticksPerSecond)
        {
            _ticksPerSecond = ticksPerSecond;
            var clock = new CommonClock(ticksPerSecond);
            _rate.Start(clock, ReadingKind.HeartRateEcg);
            _fused.Start(clock);
            _variability.Start(clock);
            _rhythm.Start(clock);
            _arrival.Start(ticksPerSecond, 1, 1, 0);
            _spot.Start(clock);
            _index.Start(clock);
            _respiration.Start(clock);
        }

        public void Beat(double intervalS, bool startsRun, double breath, List<Reading>? given)
        {
            _t += intervalS;
            long at = At(_t);
            long foot = At(_t + 0.2 + (0.003 * breath));
            if (_rate.Add(at, startsRun, 255))
            {
                given?.Add(_rate.Latest);
                if (_fused.Update(_rate.Latest, default, default, foot))
                {
                    given?.Add(_fused.Latest);
                }
            }

            if (_variability.Add(at, startsRun, true))
            {
                given?.Add(_variability.Sdnn);
            }

            _rhythm.Add(at, startsRun, true);
            _arrival.AddRPeak(SamplePosition.From256(at));
            if (_arrival.AddFoot(SamplePosition.From256(foot)) && _spot.Add(_arrival.Latest))
            {
                given?.Add(_arrival.Latest);
                given?.Add(_spot.Latest);
            }

            int amplitude = 4000 + (int)(300 * breath);
            if (_index.Add(new PulseEvent(default, default, default, amplitude, 255, 0, default, 400_000, startsRun), foot))
            {
                given?.Add(_index.Latest);
            }

            bool isNew = _respiration.AddBeat(at, startsRun, 1000);
            isNew |= _respiration.AddPulse(foot, startsRun, amplitude, 400_000 + (int)(500 * breath));
            if (isNew)
            {
                given?.Add(_respiration.Latest);
            }
        }

        private long At(double seconds) => (long)Math.Round(seconds * 256 * _ticksPerSecond);
    }
}
