// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Light that goes through the canceller as a run gives what it gives one by one.</summary>
[TestFixture]
public sealed class CancellerRunTests
{
    private const int CodesPerG = 4096;

    [TestCase(100, 50)]
    [TestCase(100, 25)]
    [TestCase(50, 50)]
    [TestCase(25, 100)]
    [TestCase(100, 200)]
    public void Take_RestAndMovementInTurn_IsTheSameAsOneByOne(int lightHz, int accelHz)
    {
        var random = new Random(5109);
        MovementReference reference = Started(accelHz);
        MovementReference ahead = Started(accelHz);
        var alone = new Canceller();
        var together = new Canceller();
        alone.Start(lightHz, accelHz);
        together.Start(lightHz, accelHz);
        NoProbe probe = default;
        int stillRuns = 0;
        int activeRuns = 0;
        long lightAt = 0;
        long accelAt = 0;
        long aheadAt = 0;
        while (lightAt < 40_000)
        {
            if (random.Next(40) == 0)
            {
                alone.Restart();
                together.Restart();
            }

            int count = random.Next(1, 33);
            var lights = new int[count];
            var expected = new int[count];
            for (int i = 0; i < count; i++)
            {
                lights[i] = 200_000 + random.Next(-300, 300) + (int)(3000 * Math.Sin((lightAt + i) * 0.1)) + (random.Next(100) == 0 ? 17_000_000 : 0);
                Advance(ref reference, ref accelAt, lightAt + i, lightHz, accelHz);
                expected[i] = alone.Next(lights[i], reference, ref probe);
            }

            int done = 0;
            if (ahead.IsStill)
            {
                int before = ahead.Steps;
                int after = before;
                uint stepped = 0;
                while (done < count)
                {
                    Advance(ref ahead, ref aheadAt, lightAt + done, lightHz, accelHz);
                    if (!ahead.IsStill)
                    {
                        break;
                    }

                    stepped |= ahead.Steps != after ? 1u << done : 0;
                    after = ahead.Steps;
                    done++;
                }

                if (done > 0)
                {
                    together.TakeStill(lights.AsSpan(0, done), stepped, before, after, ref probe);
                    stillRuns++;
                }
            }

            while (done < count)
            {
                Advance(ref ahead, ref aheadAt, lightAt + done, lightHz, accelHz);
                int alike = 1;
                while (done + alike < count && aheadAt * lightHz > (lightAt + done + alike) * accelHz)
                {
                    alike++;
                }

                together.Take(lights.AsSpan(done, alike), default, ahead, ref probe);
                done += alike;
                activeRuns += together.IsActive ? 1 : 0;
            }

            lightAt += count;
            Assert.That(lights, Is.EqualTo(expected), $"sample {lightAt}");
            Assert.That(BytesOf(together).SequenceEqual(BytesOf(alone)), Is.True, $"the whole state, sample {lightAt}");
        }

        Assert.That(stillRuns, Is.GreaterThan(200));
        Assert.That(activeRuns, Is.GreaterThan(200));
    }

    [Test]
    public void Next_AnyAcceleration_IsThePlainArithmetic()
    {
        var random = new Random(5111);
        MovementReference reference = Started(50);
        var functions = new long[12];
        var gravity = new long[3];
        for (int step = 0; step < 20_000; step++)
        {
            int size = step % 400 < 100 ? 524_288 : step % 400 < 200 ? 30 : 6000;
            int[] codes = [random.Next(-size, size), random.Next(-size, size), random.Next(-size, size)];
            reference.Next(codes[0], codes[1], codes[2]);
            for (int axis = 0; axis < 3; axis++)
            {
                long value = Math.Clamp(((codes[axis] * ((1L << 30) / CodesPerG)) + 32_768) >> 16, -262_143, 262_143);
                gravity[axis] = step == 0 ? value << 12 : gravity[axis];
                long high = Math.Clamp(value - ((gravity[axis] + 2048) >> 12), -262_143, 262_143);
                gravity[axis] += ((high << 12) + (1 << (MovementReference.LevelShift(50) - 1))) >> MovementReference.LevelShift(50);
                long input = high;
                long before = 0;
                for (int i = 0; i < 4; i++)
                {
                    long old = functions[(4 * axis) + i];
                    long difference = i == 0 ? input - old : old - input;
                    long part = (difference + 2) >> 2;
                    long next = i == 0 ? old + part : Math.Clamp(difference - part + before, -1_048_575, 1_048_575);
                    functions[(4 * axis) + i] = next;
                    before = old;
                    input = next;
                }
            }

            for (int i = 0; i < 12; i++)
            {
                Assert.That(reference.Values[i], Is.EqualTo(functions[i]), $"step {step}, function {i}");
            }
        }
    }

    private static ReadOnlySpan<byte> BytesOf(in Canceller canceller) => MemoryMarshal.AsBytes(new ReadOnlySpan<Canceller>(in canceller));

    private static MovementReference Started(int accelHz)
    {
        var reference = new MovementReference();
        Assert.That(reference.Start(accelHz, CodesPerG), Is.True);
        return reference;
    }

    // Twenty seconds of rest, ten of movement, by the number of the sample alone.
    private static void Advance(ref MovementReference reference, ref long accelAt, long lightAt, int lightHz, int accelHz)
    {
        for (; accelAt * lightHz <= lightAt * accelHz; accelAt++)
        {
            double seconds = (double)accelAt / accelHz;
            double g = seconds % 30 < 20 ? 0 : 0.4;
            int Code(double hz, double rest) => (int)(CodesPerG * (rest + (g * Math.Sin(2 * Math.PI * hz * seconds))));
            reference.Next(Code(1.7, 0), Code(1.1, 0.3), Code(2.3, 1));
        }
    }
}
