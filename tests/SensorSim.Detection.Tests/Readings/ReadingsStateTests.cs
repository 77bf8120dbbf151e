// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class ReadingsStateTests
{
    [Test]
    public void State_OfAllReadings_FitsInItsShare()
    {
        (string Name, int Bytes)[] sizes =
        [
            ("HeartRate, twice", 2 * Unsafe.SizeOf<HeartRate>()), ("EarlyPairs", Unsafe.SizeOf<EarlyPairs>()), ("FusedRate", Unsafe.SizeOf<FusedRate>()), ("RrVariability", Unsafe.SizeOf<RrVariability>()),
            ("RhythmCheck", Unsafe.SizeOf<RhythmCheck>()), ("Arrival", Unsafe.SizeOf<Arrival>()), ("ArrivalSpot", Unsafe.SizeOf<ArrivalSpot>()),
            ("Oxygen", Unsafe.SizeOf<Oxygen>()), ("PerfusionIndex", Unsafe.SizeOf<PerfusionIndex>()), ("Respiration", Unsafe.SizeOf<Respiration>()),
        ];
        foreach ((string name, int bytes) in sizes)
        {
            TestContext.Out.WriteLine($"{name}: {bytes}");
        }

        int sum = sizes.Sum(s => s.Bytes);
        TestContext.Out.WriteLine($"sum: {sum}");
        Assert.That(sum, Is.LessThanOrEqualTo(1440));
        Assert.That(RuntimeHelpers.IsReferenceOrContainsReferences<Oxygen>(), Is.False);
        Assert.That(RuntimeHelpers.IsReferenceOrContainsReferences<Respiration>(), Is.False);
    }
}
