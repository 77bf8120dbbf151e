// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The twin in this process: the functions of twin_entry.c.</summary>
internal sealed class TwinLibrary : IDisposable
{
    private readonly IntPtr _library;
    private readonly IntPtr _state;
    private readonly InitCall _init;
    private readonly ChannelCall _channel;
    private readonly SetCall _set;
    private readonly StartCall _start;
    private readonly TakeCall _take;
    private readonly FlushCall _flush;

    public TwinLibrary(string path)
    {
        _library = NativeLibrary.Load(path);
        _init = Get<InitCall>("twin_init");
        _channel = Get<ChannelCall>("twin_channel");
        _set = Get<SetCall>("twin_set");
        _start = Get<StartCall>("twin_start");
        _take = Get<TakeCall>("twin_take");
        _flush = Get<FlushCall>("twin_flush");
        StateBytes = Get<SizeCall>("twin_state_size")();
        _state = Marshal.AllocHGlobal(Get<SizeCall>("twin_size")());
    }

    private delegate int SizeCall();

    private delegate void InitCall(IntPtr state);

    private delegate int ChannelCall(IntPtr state, int role, int rateHz, int ticksPerSample, int polarity, int zeroCode, int codesPerUnit256, long delay256);

    private delegate int SetCall(IntPtr state, int item, int index, long value);

    private delegate int StartCall(IntPtr state, long ticksPerSecond);

    private delegate int TakeCall(IntPtr state, long begin, long end, int[] codes, ushort[] status, long[] runs, int runCount, long[] words, int capacity);

    private delegate int FlushCall(IntPtr state, long[] words, int capacity);

    /// <summary>Size of the library's state on this machine [bytes].</summary>
    public int StateBytes { get; }

    public void Init() => _init(_state);

    public bool Channel(int role, int rateHz, int ticksPerSample, int polarity, int zeroCode, int codesPerUnit256, long delay256) =>
        _channel(_state, role, rateHz, ticksPerSample, polarity, zeroCode, codesPerUnit256, delay256) != 0;

    public bool Set(OptionItem item) => _set(_state, item.Item, item.Index, item.Value) != 0;

    public int Start(long ticksPerSecond) => _start(_state, ticksPerSecond);

    public int Take(FlatBlock block, long[] words) => _take(
        _state, block.BeginTick, block.EndTick, block.Codes, block.Status, block.Runs, block.RunCount, words, words.Length / AnswerWords.Count);

    public int Flush(long[] words) => _flush(_state, words, words.Length / AnswerWords.Count);

    public void Dispose()
    {
        Marshal.FreeHGlobal(_state);
        NativeLibrary.Free(_library);
    }

    private T Get<T>(string name)
        where T : Delegate => Marshal.GetDelegateForFunctionPointer<T>(NativeLibrary.GetExport(_library, name));
}
