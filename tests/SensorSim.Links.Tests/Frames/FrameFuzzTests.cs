// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Marks;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>
/// Frames on a bad wire. What must come out is found another way than by decoding: the bytes between two 00 are one of the frames that were
/// sent, to the byte, or they are damage. So no wrong frame is accepted, all damage is counted, and the reader has found its place again after each 00.
/// </summary>
/// <remarks>A check of 32 bits lets one damaged frame in 4.3 · 10⁹ through; the seeds are drawn anew in each run.</remarks>
public sealed class FrameFuzzTests
{
    private const int FramesEach = 50;

    [Test]
    public void Read_AHundredThousandFramesOnABadWire_TakesTheRightOnesAndCountsTheRest() => Holds(100_000);

    [Test]
    [Category("Slow")]
    public void Read_TenMillionFramesOnABadWire_TakesTheRightOnesAndCountsTheRest() => Holds(10_000_000);

    [Test]
    public void Payloads_RandomAndDamaged_NeverThrow()
        => Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                var random = new Random(seed);
                var format = random.Next(2) == 0 ? Streams.Small : Streams.Full;
                for (int i = 0; i < 20; i++)
                {
                    (FrameType type, byte[] payload) = PayloadFuzz.Any(random, format);
                    PayloadFuzz.Again(type, payload, format);
                    byte[] anything = FrameFuzz.Payload(random, random.Next(241));
                    PayloadFuzz.Again((FrameType)random.Next(256), anything, format);
                    new FormatGatherer().TryAdd(anything, out _);
                    MarkPayload.TryRead(anything, format, new Mark[random.Next(6)], out _);
                }
            },
            iter: 1000,
            threads: 1);

    [Test]
    public void FuzzInC_UnderSanitizers_FindsNothing()
    {
        string folder = Directory.CreateTempSubdirectory("fuzz-link").FullName;
        try
        {
            string link = Path.Combine(CCompiler.Root, "src", "firmware", "link");
            string program = CCompiler.Build(
                Path.Combine(CCompiler.Root, "tests", "firmware", "fuzz_link.c"),
                Path.Combine(folder, "fuzz"),
                ["-g", "-Wconversion", "-pedantic", "-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-I", link, .. Directory.GetFiles(link, "sensorsim_*.c")]);
            Assert.That(CCompiler.Run(program, "100000", "1"), Does.Contain("the right ones accepted, all damage counted"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Holds(int frames)
        => Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                var random = new Random(seed);
                byte[] wire = FrameFuzz.DamagedWire(random, FramesEach, out List<byte[]> sent);
                (List<byte[]> expected, FrameCounts counts) = Expected(wire, sent);
                var reader = new FrameReader();
                List<(FrameType Type, uint Sequence, byte[] Payload)> frames = FrameTests.FramesOf(reader, wire, random.Next(1, 500));
                Assert.That(reader.Counts, Is.EqualTo(counts));
                Assert.That(frames, Has.Count.EqualTo(expected.Count));
                for (int i = 0; i < frames.Count; i++)
                {
                    byte[] again = FrameTests.Made(new FrameWriter(frames[i].Sequence), frames[i].Type, frames[i].Payload);
                    Assert.That(again.AsSpan().SequenceEqual(expected[i]), Is.True);
                }
            },
            iter: frames / FramesEach,
            threads: 1);

    private static (List<byte[]> Frames, FrameCounts Counts) Expected(byte[] wire, List<byte[]> sent)
    {
        // Type and number of a frame stand in it, but to read them would be to decode: the writer's order is known instead.
        var good = new List<byte[]>();
        Dictionary<string, int> places = sent.Select((frame, place) => (frame, place)).ToDictionary(p => Key(p.frame), p => p.place);
        (long damaged, long missing, long repeated) = (0, 0, 0);
        int last = -1;
        int begin = 0;
        for (int at = 0; at < wire.Length; at++)
        {
            if (wire[at] != 0)
            {
                continue;
            }

            if (!places.TryGetValue(Convert.ToHexString(wire.AsSpan(begin..at)), out int place))
            {
                damaged += at > begin ? 1 : 0;
            }
            else if (place > last || good.Count == 0 || sent[place][0] == 0 && !IsAsk(sent[place]))
            {
                missing += good.Count == 0 || (sent[place][0] == 0 && !IsAsk(sent[place])) ? 0 : place - last - 1;
                last = place;
                good.Add(sent[place]);
            }
            else
            {
                repeated++;
            }

            begin = at + 1;
        }

        return (good, new FrameCounts(good.Count, damaged, missing, repeated, 0));
    }

    // Of the frames with a 00 in front only `ask` does not begin the numbers anew. After the 00 come a code, the version, the type.
    private static bool IsAsk(byte[] frame) => frame[3] == (byte)FrameType.Ask;

    private static string Key(byte[] frame) => Convert.ToHexString(frame.AsSpan(frame[0] == 0 ? 1 : 0)[..^1]);
}
