// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Links.Frames;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Frames;

/// <summary>The codec in C, built by gcc as the firmware builds it, behind functions of bytes.</summary>
internal sealed class LinkInC : IDisposable
{
    private static readonly string s_link = Path.Combine(CCompiler.Root, "src", "firmware", "link");
    private readonly string _folder = Directory.CreateTempSubdirectory("link-c").FullName;
    private readonly nint _library;
    private readonly FramesCall _frames;
    private readonly SealCall _seal;
    private readonly AgainCall _again;
    private readonly CrcCall _crc;
    private readonly byte[] _out = new byte[1 << 20];

    public LinkInC(params string[] more)
    {
        string file = CCompiler.Library(
            Path.Combine(CCompiler.Root, "tests", "firmware", "link_shim.c"),
            Path.Combine(_folder, "link.so"),
            ["-O2", "-Wconversion", "-pedantic", "-I", s_link, .. more, .. Directory.GetFiles(s_link, "sensorsim_link*.c")]);
        _library = NativeLibrary.Load(file);
        _frames = Export<FramesCall>("shim_frames");
        _seal = Export<SealCall>("shim_seal");
        _again = Export<AgainCall>("shim_again");
        _crc = Export<CrcCall>("shim_crc");
    }

    private delegate int FramesCall(byte[] bytes, int count, int byByte, byte[] target, int room, uint[] counts);

    private delegate int SealCall(uint sequence, byte type, byte[] payload, int length, byte[] target);

    private delegate int AgainCall(byte type, byte[] payload, int length, byte[] formats, int formatCount, byte[] target, int room);

    private delegate uint CrcCall(byte[] bytes, int count);

    public uint Crc(byte[] bytes) => _crc(bytes, bytes.Length);

    public byte[] Made(uint sequence, FrameType type, byte[] payload)
    {
        int length = _seal(sequence, (byte)type, payload, payload.Length, _out);
        return _out[..length];
    }

    /// <summary>The frames in some bytes, each as type, sequence, length, payload, and what was counted.</summary>
    public (byte[] Frames, FrameCounts Counts) Frames(byte[] bytes, bool byByte)
    {
        var counts = new uint[5];
        int length = _frames(bytes, bytes.Length, byByte ? 1 : 0, _out, _out.Length, counts);
        return (_out[..length], new FrameCounts(counts[0], counts[1], counts[2], counts[3], counts[4]));
    }

    /// <summary>A payload read and written again; null when it is refused.</summary>
    public byte[]? Again(FrameType type, byte[] payload, IReadOnlyList<byte[]> formats)
    {
        byte[] told = [.. formats.SelectMany(f => f.Concat(new byte[200 - f.Length]))];

        // Its own array of just that length, so that reading on would leave it.
        int length = _again((byte)type, [.. payload], payload.Length, told, formats.Count, _out, _out.Length);
        Assert.That(length, Is.GreaterThanOrEqualTo(-1));
        return length < 0 ? null : _out[..length];
    }

    public void Dispose()
    {
        NativeLibrary.Free(_library);
        Directory.Delete(_folder, recursive: true);
    }

    private T Export<T>(string name)
        where T : Delegate => Marshal.GetDelegateForFunctionPointer<T>(NativeLibrary.GetExport(_library, name));
}
