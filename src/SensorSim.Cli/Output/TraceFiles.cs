// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Probing;
using SensorSim.Files.Output;
using SensorSim.Files.Rows;
using SensorSim.FixedPoint;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>One file for each traced stage, written as the values come.</summary>
internal sealed class TraceFiles : IStageSink, IDisposable
{
    private readonly TraceCsvWriter?[] _files = new TraceCsvWriter?[StageName.All.Count];
    private IOException? _failure;

    public TraceFiles(OutputFolder folder, StreamFormat format, IEnumerable<ProbePoint> points)
    {
        foreach (ProbePoint point in points)
        {
            _files[(int)point] = new TraceCsvWriter(folder.CreateFile(NameOf(point)), format);
        }
    }

    public static string NameOf(ProbePoint point) => $"trace_{point.Text()}.csv";

    public void Take(ProbePoint point, ChannelName channel, long sample, int value)
    {
        if (_failure is not null)
        {
            return;
        }

        try
        {
            _files[(int)point]!.Write(channel, sample, value);
        }
        catch (IOException e)
        {
            // The detector calls: what it lets through would be taken for a crash of its own.
            _failure = e;
        }
    }

    /// <summary>Finishes and closes every file.</summary>
    /// <exception cref="IOException">A value could not be written.</exception>
    public void Complete()
    {
        if (_failure is not null)
        {
            throw new IOException(_failure.Message, _failure);
        }

        Dispose();
    }

    public void Dispose()
    {
        foreach (TraceCsvWriter? file in _files)
        {
            file?.Dispose();
        }
    }
}
