// SPDX-License-Identifier: MIT
using SensorSim.Detectors.CLibraries;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.CLibraries;

/// <summary>A folder with freshly built libraries, and streams through them.</summary>
public abstract class TestLibraries
{
    private string _folder = "";

    [OneTimeSetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("libraries-").FullName;

    [OneTimeTearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    private protected static IReadOnlyDictionary<string, double> NoConstants { get; } = new Dictionary<string, double>();

    private protected string At(string name) => Path.Combine(_folder, name);

    private protected string Bad(string behaviour, params string[] more) => CCompiler.BadLibrary(_folder, behaviour, more);

    private protected string Threshold() => CCompiler.Library(CCompiler.Example, At("threshold.so"), "-O2");

    private protected static StreamMaker Maker(double seconds = 12) => new(
        seconds,
        StreamMaker.Channel(ChannelName.Ecg, 250),
        StreamMaker.Channel(ChannelName.Red, 100),
        StreamMaker.Channel(ChannelName.Infrared, 100));

    /// <summary>Starts a detector anew and runs a stream through it, in blocks of some ticks.</summary>
    private protected static (List<Mark> Marks, List<SettingsRequest> Requests) Run(IDetector detector, StreamMaker maker, Func<long>? nextLength = null)
    {
        detector.Start(maker.Format);
        var output = new DetectorOutput();
        var marks = new List<Mark>();
        var requests = new List<SettingsRequest>();
        var block = new SampleBlock(maker.Format, maker.EndTick);
        for (long tick = 0; tick < maker.EndTick;)
        {
            long end = Math.Min(maker.EndTick, tick + (nextLength?.Invoke() ?? maker.Format.Clock.TicksPerSecond));
            maker.Fill(block, tick, end);
            detector.Process(block, output);
            Take(output, marks, requests);
            tick = end;
        }

        detector.Flush(output);
        Take(output, marks, requests);
        return (marks, requests);
    }

    private static void Take(DetectorOutput output, List<Mark> marks, List<SettingsRequest> requests)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }

        while (output.Requests.TryTake(out SettingsRequest request))
        {
            requests.Add(request);
        }
    }
}
