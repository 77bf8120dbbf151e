// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Ambient;
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>The canceller against artefacts that are made from the acceleration in several ways it does not know.</summary>
[TestFixture]
public sealed class CancellerTests
{
    private const int CodesPerG = Artefacts.CodesPerG;

    // Ways from movement to light [Hz or s]: a slow and a quick tissue, one that only delays, and two poles one after the other.
    [TestCase("pole 1 Hz", 100, 50, 11)]
    [TestCase("pole 2 Hz", 100, 50, 11)]
    [TestCase("pole 5 Hz", 100, 50, 11)]
    [TestCase("delay 60 ms", 100, 50, 11)]
    [TestCase("two poles 3 Hz", 100, 50, 11)]
    [TestCase("pole 2 Hz", 100, 100, 11)]
    [TestCase("pole 2 Hz", 100, 25, 10)]
    [TestCase("pole 2 Hz", 25, 50, 11)]
    [TestCase("pole 2 Hz", 50, 100, 11)]
    [TestCase("pole 2 Hz", 200, 50, 11)]
    [TestCase("pole 2 Hz", 64, 64, 11)]
    [TestCase("pole 2 Hz", 100, 400, 11)]
    public void Next_ArtefactOfTheMovement_IsTakenOff(string way, int lightHz, int accelHz, double leastDb)
    {
        int[] artefact = Artefacts.Make(way, lightHz, 60, out int[][] codes, accelHz);
        (double before, double after, double mean) = Run(lightHz, accelHz, artefact, codes, 30);
        Assert.That(20 * Math.Log10(before / after), Is.GreaterThan(leastDb), $"{before:F0} to {after:F0}");
        Assert.That(mean, Is.EqualTo(200_000).Within(60));
    }

    [Test]
    public void Next_PulseBesideTheArtefact_StaysAsItIs()
    {
        int[] artefact = Artefacts.Make("pole 2 Hz", 100, 90, out int[][] codes, 50);
        int[] pulse = new SyntheticPulse { BeatS = 0.83, AmplitudeCodes = 1500 }.Make(90, 1);
        int[] light = [.. artefact.Zip(pulse, (a, p) => a - 200_000 + p)];
        int[] output = Output(light, codes, 100, 50);
        double error = 0;
        double size = 0;
        for (int i = 4000; i < output.Length; i++)
        {
            error += Math.Pow(output[i] - pulse[i], 2);
            size += Math.Pow(light[i] - pulse[i], 2);
        }

        Assert.That(10 * Math.Log10(size / error), Is.GreaterThan(11));
    }

    [Test]
    public void Next_Rest_IsLeftAloneToTheBit()
    {
        var random = new Random(5030);
        int[] pulse = new SyntheticPulse().Make(60, 1);
        int[][] codes = [.. Enumerable.Range(0, 3000).Select(_ => new[] { (int)(3 * SyntheticEcg.Normal(random)), 500, 866 + (int)(3 * SyntheticEcg.Normal(random)) })];
        Assert.That(Output(pulse, codes, 100, 50), Is.EqualTo(pulse));
    }

    [Test]
    public void Next_MovementThatHasNothingToDoWithTheLight_HardlyHarms()
    {
        int[][] codes = [.. new Gait().Make(120, 50).Select(g => Gait.Codes(g, CodesPerG))];
        int[] pulse = new SyntheticPulse { BeatS = 0.71 }.Make(120, 1);
        int[] output = Output(pulse, codes, 100, 50);
        double error = 0;
        double size = 0;
        for (int i = 2000; i < output.Length; i++)
        {
            error += Math.Pow(output[i] - pulse[i], 2);
            size += Math.Pow(pulse[i] - pulse.Average(), 2);
        }

        // Misadjustment of three axes at μ = 1/32, the effective step about three quarters of it: 0.035, −14 dB. It is used only where it helps.
        Assert.That(10 * Math.Log10(size / error), Is.GreaterThan(20));
    }

    [Test]
    public void Next_StepOfTheLight_PassesWholeAndUndoesNothing()
    {
        int[] artefact = Artefacts.Make("pole 2 Hz", 100, 60, out int[][] codes, 50);
        int[] with = [.. artefact.Select((a, i) => i >= 4000 ? a + 80_000 : a)];
        int[] one = Output(artefact, codes, 100, 50);
        int[] two = Output(with, codes, 100, 50);
        double worst = 0;
        for (int i = 4000; i < two.Length; i++)
        {
            worst = Math.Max(worst, Math.Abs(two[i] - 80_000 - one[i]));
        }

        // The artefact has an rms of about 3000: less than a third of it comes back.
        Assert.That(worst, Is.LessThan(3000));
        Assert.That(two[4000] - two[3999], Is.EqualTo(80_000).Within(1000));
    }

    [Test]
    public void Next_WayThatTurnsRound_IsLearnedAnew()
    {
        int[] artefact = Artefacts.Make("pole 2 Hz", 100, 90, out int[][] codes, 50);
        int[] turned = [.. artefact.Select((a, i) => i >= 4000 ? 400_000 - a : a)];
        int[] output = Output(turned, codes, 100, 50);
        double late = Math.Sqrt(output.Skip(6000).Average(o => Math.Pow(o - 200_000, 2)));
        double input = Math.Sqrt(turned.Skip(6000).Average(o => Math.Pow(o - 200_000, 2)));
        Assert.That(20 * Math.Log10(input / late), Is.GreaterThan(11));
    }

    [Test]
    public void Next_EverythingAtTheRails_StaysBounded()
    {
        var random = new Random(5031);
        var reference = new MovementReference();
        var canceller = new Canceller();
        reference.Start(50, 16_384);
        canceller.Start(100, 50);
        NoProbe probe = default;
        for (int i = 0; i < 100_000; i++)
        {
            if (i % 2 == 0)
            {
                int Code() => random.Next(2) == 0 ? 524_287 : -524_288;
                reference.Next(Code(), Code(), i % 50 < 25 ? 524_287 : -524_288);
            }

            int light = i % 60 < 30 ? 16_777_215 : 0;
            int output = canceller.Next(light, reference, ref probe);
            Assert.That(Math.Abs((long)output - light), Is.LessThan(1 << 25), $"sample {i}");
        }
    }

    [Test]
    public void Copy_InTheMiddle_GoesOnAlike()
    {
        int[] artefact = Artefacts.Make("pole 2 Hz", 100, 40, out int[][] codes, 50);
        var reference = new MovementReference();
        var canceller = new Canceller();
        reference.Start(50, CodesPerG);
        canceller.Start(100, 50);
        MovementReference otherReference = default;
        Canceller other = default;
        NoProbe probe = default;
        for (int i = 0; i < artefact.Length; i++)
        {
            if (i == 2001)
            {
                otherReference = reference;
                other = canceller;
            }

            if (i % 2 == 0)
            {
                reference.Next(codes[i / 2][0], codes[i / 2][1], codes[i / 2][2]);
                otherReference.Next(codes[i / 2][0], codes[i / 2][1], codes[i / 2][2]);
            }

            int output = canceller.Next(artefact[i], reference, ref probe);
            if (i >= 2001)
            {
                Assert.That(other.Next(artefact[i], otherReference, ref probe), Is.EqualTo(output));
            }
        }
    }

    [Test]
    public void State_OfTheWholePart_FitsItsShare()
    {
        int bytes = Unsafe.SizeOf<MovementReference>() + (2 * Unsafe.SizeOf<Canceller>()) + Unsafe.SizeOf<MovementLevel>()
            + Unsafe.SizeOf<CadenceTracker>() + Unsafe.SizeOf<PulseSpectrum>() + Unsafe.SizeOf<DarkSubtraction>();
        Assert.That(bytes, Is.LessThanOrEqualTo(1331));
    }

    [TestCase(11, 50)]
    [TestCase(1601, 50)]
    [TestCase(100, 11)]
    [TestCase(100, 1601)]
    public void Start_RateOutOfRange_SaysNo(int lightHz, int accelHz)
    {
        Assert.That(new Canceller().Start(lightHz, accelHz), Is.False);
    }

    internal static int[] Output(int[] light, int[][] codes, int lightHz, int accelHz)
    {
        var reference = new MovementReference();
        var canceller = new Canceller();
        Assert.That(reference.Start(accelHz, CodesPerG), Is.True);
        Assert.That(canceller.Start(lightHz, accelHz), Is.True);
        NoProbe probe = default;
        var output = new int[light.Length];
        int next = 0;
        for (int i = 0; i < light.Length; i++)
        {
            // Channels of one tick come in their order: the light first.
            while (next < codes.Length && (long)next * lightHz < (long)i * accelHz)
            {
                reference.Next(codes[next][0], codes[next][1], codes[next][2]);
                next++;
            }

            output[i] = canceller.Next(light[i], reference, ref probe);
        }

        return output;
    }

    private static (double Before, double After, double Mean) Run(int lightHz, int accelHz, int[] light, int[][] codes, int fromS)
    {
        int[] output = Output(light, codes, lightHz, accelHz);
        double before = Math.Sqrt(light.Skip(fromS * lightHz).Average(o => Math.Pow(o - 200_000, 2)));
        double after = Math.Sqrt(output.Skip(fromS * lightHz).Average(o => Math.Pow(o - 200_000, 2)));
        return (before, after, output.Skip(fromS * lightHz).Average());
    }
}
