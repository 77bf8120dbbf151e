// SPDX-License-Identifier: MIT
using System.Globalization;
using System.IO.Pipes;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Lines;
using SensorSim.Signals.Randomness;

namespace SensorSim.Links.SelfChecks;

/// <summary>Frames to an echo at the other end of two pipes of this machine and back: no port, no network.</summary>
public static class LoopbackCheck
{
    private const int FrameCount = 500;
    private const int DamagedEvery = 10;
    private static readonly TimeSpan s_limit = TimeSpan.FromSeconds(10);

    /// <summary>Sends and compares; one frame in ten is damaged on the way out and must be refused at the other end.</summary>
    /// <returns>How many frames came back.</returns>
    /// <exception cref="InvalidDataException">A frame did not, or damage was not noticed.</exception>
    public static string Run()
    {
        using var toEcho = new AnonymousPipeServerStream(PipeDirection.Out);
        using var echoIn = new AnonymousPipeClientStream(PipeDirection.In, toEcho.ClientSafePipeHandle);
        using var fromEcho = new AnonymousPipeServerStream(PipeDirection.In);
        using var echoOut = new AnonymousPipeClientStream(PipeDirection.Out, fromEcho.ClientSafePipeHandle);
        using var near = new StreamLink(fromEcho, toEcho, "loopback");
        using var far = new StreamLink(echoIn, echoOut, "echo");
        FrameCounts echoed = default;
        var echo = new Thread(() => echoed = Echo(far)) { IsBackground = true, Name = "echo of the loopback" };
        echo.Start();
        string found;
        bool hasEnded;
        try
        {
            found = Exchange(near);
        }
        finally
        {
            near.Dispose();
            hasEnded = echo.Join(s_limit);
        }

        if (!hasEnded)
        {
            throw new InvalidDataException("the other end did not notice that the link was closed");
        }

        const int Damaged = FrameCount / DamagedEvery;
        return echoed.Damaged == Damaged ? found
            : throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"{Damaged} frames were damaged on purpose, {echoed.Damaged} were noticed"));
    }

    private static string Exchange(StreamLink link)
    {
        var writer = new FrameWriter();
        var reader = new FrameReader();
        var draws = new KeyedRandom(1, "selftest.loopback");
        byte[] payload = new byte[FrameLimits.MaximumPayload];
        byte[] wire = new byte[FrameLimits.WireBuffer];
        int kept = 0;
        for (int i = 0; i < FrameCount; i++)
        {
            int length = (int)(draws.Word(i) % (FrameLimits.MaximumPayload + 1));
            for (int at = 0; at < length; at++)
            {
                payload[at] = (byte)draws.Word(FrameCount + (i * FrameLimits.MaximumPayload) + at);
            }

            int count = writer.Write(FrameType.Log, payload.AsSpan(0, length), wire);
            bool isDamaged = i % DamagedEvery == DamagedEvery - 1;
            if (isDamaged)
            {
                // Any byte but a 00, and not into one.
                wire[1] ^= wire[1] == 0x80 ? (byte)0x40 : (byte)0x80;
            }

            link.Write(wire.AsSpan(0, count));
            if (isDamaged)
            {
                continue;
            }

            if (!Returns(link, reader, (uint)i, payload.AsSpan(0, length)))
            {
                throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"frame {i} of {length} bytes did not come back as it was"));
            }

            kept++;
        }

        return $"{kept} frames came back, {FrameCount - kept} damaged ones were refused";
    }

    private static bool Returns(StreamLink link, FrameReader reader, uint sequence, ReadOnlySpan<byte> payload)
    {
        byte[] buffer = new byte[FrameLimits.WireBuffer];
        while (true)
        {
            int count = link.Read(buffer, s_limit);
            if (count == 0)
            {
                return false;
            }

            ReadOnlySpan<byte> bytes = buffer.AsSpan(0, count);
            if (reader.TryRead(ref bytes, out Frame frame))
            {
                return bytes.IsEmpty && frame.Sequence == sequence && frame.Payload.SequenceEqual(payload);
            }
        }
    }

    private static FrameCounts Echo(StreamLink link)
    {
        var reader = new FrameReader();
        byte[] buffer = new byte[FrameLimits.WireBuffer];
        byte[] wire = new byte[FrameLimits.WireBuffer];
        try
        {
            while (true)
            {
                ReadOnlySpan<byte> bytes = buffer.AsSpan(0, link.Read(buffer, s_limit));
                while (reader.TryRead(ref bytes, out Frame frame))
                {
                    link.Write(wire.AsSpan(0, new FrameWriter(frame.Sequence).Write(frame.Type, frame.Payload, wire)));
                }
            }
        }
        catch (LinkLostException)
        {
            return reader.Counts;
        }
    }
}
