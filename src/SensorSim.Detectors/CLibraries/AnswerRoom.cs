// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Where a C library writes its answers, with a guard behind each buffer that shows whether it wrote beyond.</summary>
internal sealed unsafe class AnswerRoom : IDisposable
{
    private const int GuardBytes = 4096;
    private const byte Guard = 0xA5;

    private readonly CMark* _marks;
    private readonly CRequest* _requests;
    private readonly int _markCapacity;
    private readonly int _requestCapacity;

    /// <summary>Creates room for one answer more than may be given: who fills it is babbling.</summary>
    public AnswerRoom(int markLimit, int requestLimit)
    {
        _markCapacity = markLimit + 1;
        _requestCapacity = requestLimit + 1;
        _marks = (CMark*)Make(_markCapacity * sizeof(CMark));
        _requests = (CRequest*)Make(_requestCapacity * sizeof(CRequest));
    }

    ~AnswerRoom() => Free();

    /// <summary>Empty answers over this room.</summary>
    public CAnswers Begin() => new()
    {
        Size = (uint)sizeof(CAnswers),
        MarkCapacity = _markCapacity,
        RequestCapacity = _requestCapacity,
        Marks = _marks,
        Requests = _requests,
    };

    /// <summary>Takes over what the library wrote.</summary>
    /// <exception cref="DetectorCrashedException">It broke the contract.</exception>
    public void Take(in CAnswers answers, DetectorOutput output)
    {
        if ((uint)answers.MarkCount > (uint)_markCapacity)
        {
            throw new DetectorCrashedException($"The detector reported {answers.MarkCount} marks where {_markCapacity} fit");
        }

        if ((uint)answers.RequestCount > (uint)_requestCapacity)
        {
            throw new DetectorCrashedException($"The detector reported {answers.RequestCount} settings requests where {_requestCapacity} fit");
        }

        if (!IsWhole(_marks + _markCapacity) || !IsWhole(_requests + _requestCapacity))
        {
            throw new DetectorCrashedException("The detector wrote beyond the end of the buffer for its answers");
        }

        for (int i = 0; i < answers.MarkCount; i++)
        {
            output.Marks.Add(MarkOf(_marks[i]));
        }

        for (int i = 0; i < answers.RequestCount; i++)
        {
            CRequest r = _requests[i];
            output.Requests.Add(new SettingsRequest(r.Channel, (SensorSetting)r.Setting, r.ValueMilli, r.EffectiveTick));
        }
    }

    public void Dispose()
    {
        Free();
        GC.SuppressFinalize(this);
    }

    private static Mark MarkOf(in CMark m) => new()
    {
        Channel = m.Channel,
        Kind = (MarkKind)m.Kind,
        Sample = m.Sample,
        Fraction256 = m.Fraction256,
        HasValue = m.HasValue != 0,
        ValueMilli = m.ValueMilli,
        Quality = m.Quality,
        EmittedTick = m.EmittedTick,
        PairedChannel = m.PairedChannel,
        PairedSample = m.PairedSample,
        PairedFraction256 = m.PairedFraction256,
        WindowSamples = m.WindowSamples,
    };

    private static void* Make(int bytes)
    {
        void* room = NativeMemory.AllocZeroed((nuint)(bytes + GuardBytes));
        new Span<byte>((byte*)room + bytes, GuardBytes).Fill(Guard);
        return room;
    }

    private static bool IsWhole(void* guard) => new ReadOnlySpan<byte>(guard, GuardBytes).IndexOfAnyExcept(Guard) < 0;

    private void Free()
    {
        NativeMemory.Free(_marks);
        NativeMemory.Free(_requests);
    }
}
