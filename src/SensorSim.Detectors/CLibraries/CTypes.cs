// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;

namespace SensorSim.Detectors.CLibraries;

// The structures of sensorsim_detector.h, field by field; a test compiles the header and compares sizes and places.

[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CChannel
{
    public const int DeviceLength = 32;

    public int Name;
    public int RateHz;
    public int Bits;
    public int IsSigned;
    public int ZeroCode;
    public int Polarity;
    public double UnitPerCode;
    public long DeclaredDelayNs;
    public long TicksPerSample;
    public fixed byte Device[DeviceLength];
}

[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CFormat
{
    public uint Size;
    public int ChannelCount;
    public long TicksPerSecond;
    public CChannel* Channels;
}

[StructLayout(LayoutKind.Sequential)]
internal struct CRun
{
    public long FirstIndex;
    public int Offset;
    public int Count;
}

[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CChannelBlock
{
    public int* Codes;
    public ushort* Status;
    public CRun* Runs;
    public int SampleCount;
    public int RunCount;
}

[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CBlock
{
    public uint Size;
    public int ChannelCount;
    public long BeginTick;
    public long EndTick;
    public CChannelBlock* Channels;
}

[StructLayout(LayoutKind.Sequential)]
internal struct CMark
{
    public long Sample;
    public long EmittedTick;
    public long PairedSample;
    public long WindowSamples;
    public int Channel;
    public int Kind;
    public int ValueMilli;
    public int PairedChannel;
    public byte Fraction256;
    public byte PairedFraction256;
    public byte HasValue;
    public byte Quality;
    public int Reserved;
}

[StructLayout(LayoutKind.Sequential)]
internal struct CRequest
{
    public long EffectiveTick;
    public int Channel;
    public int Setting;
    public int ValueMilli;
    public int Reserved;
}

[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CAnswers
{
    public uint Size;
    public int MarkCapacity;
    public int MarkCount;
    public int RequestCapacity;
    public int RequestCount;
    public int Reserved;
    public CMark* Marks;
    public CRequest* Requests;
}

[StructLayout(LayoutKind.Sequential)]
internal struct CConstant
{
    public uint Size;
    public int IsWhole;
    public IntPtr Name;
    public IntPtr Unit;
    public IntPtr Meaning;
    public double Minimum;
    public double Maximum;
    public double DefaultValue;
}
