// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Expectations;

/// <summary>The library, with a hand in between that may change a mark, drop it (null), or keep it back for the next block.</summary>
internal sealed class TamperingDetector(Func<Mark, int, Mark?> tamper, int heldBackNumber = -1) : IDetector
{
    private readonly LibraryDetector _library = new();
    private readonly DetectorOutput _inner = new();
    private Mark? _held;
    private int _number;

    public string Name => "tampering";

    public void Start(StreamFormat format) => _library.Start(format);

    public void Process(SampleBlock block, DetectorOutput output)
    {
        if (_held is Mark late)
        {
            _held = null;
            output.Marks.Add(late with { EmittedTick = block.EndTick });
        }

        _library.Process(block, _inner);
        Pass(output);
    }

    public void Flush(DetectorOutput output)
    {
        _library.Flush(_inner);
        Pass(output);
    }

    public void Dispose() => _library.Dispose();

    private void Pass(DetectorOutput output)
    {
        while (_inner.Marks.TryTake(out Mark mark))
        {
            int number = _number++;
            if (number == heldBackNumber)
            {
                _held = mark;
            }
            else if (tamper(mark, number) is Mark passed)
            {
                output.Marks.Add(passed);
            }
        }
    }
}
