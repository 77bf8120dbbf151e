// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Tests.Boards;

/// <summary>A detector whose marks are changed on their way out.</summary>
internal sealed class ChangingDetector(IDetector inner, Func<Mark, Mark> change) : IDetector
{
    private readonly DetectorOutput _output = new();

    public string Name => inner.Name;

    public void Start(StreamFormat format) => inner.Start(format);

    public void Process(SampleBlock block, DetectorOutput output)
    {
        inner.Process(block, _output);
        Pass(output);
    }

    public void Flush(DetectorOutput output)
    {
        inner.Flush(_output);
        Pass(output);
    }

    public void Dispose() => inner.Dispose();

    private void Pass(DetectorOutput output)
    {
        while (_output.Marks.TryTake(out Mark mark))
        {
            output.Marks.Add(change(mark));
        }
    }
}
