// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Output;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Makes the samples of a case that its set does not ship, and holds their sum against the manifest's.</summary>
public static class StimulusMaker
{
    /// <summary>Makes the samples of a case as raw numbers and as BDF+, in a folder of the case's name.</summary>
    /// <param name="own">The case.</param>
    /// <param name="folder">Takes the files; not committed.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>The sum, and why there is no BDF+; empty: there is.</returns>
    public static (string Sha256, string WhyNoBdf) Make(SetCase own, OutputFolder folder, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(own);
        ArgumentNullException.ThrowIfNull(folder);
        var files = new SetFiles(folder.CreateFile);
        IToldStream stream = own.Planned.Scenario.OpenStream();
        StreamFormat format = stream.Format;
        using var raw = new RawRecordingWriter(name => files.Create($"{own.Name}/{name}"), format);
        string whyNoBdf = "";
        BdfSink? bdf = null;
        try
        {
            bdf = new BdfSink(name => files.Create($"{own.Name}/{name}"), stream);
        }
        catch (NotSupportedException e)
        {
            whyNoBdf = e.Message;
        }

        using (bdf)
        {
            List<IRunSink> sinks = [new RawSink(raw)];
            if (bdf is not null)
            {
                sinks.Add(bdf);
            }

            new Runner(stream, stream.Truth, detector: null, scorer: null, [.. sinks]).Run(cancellation: cancellation);
            raw.Complete();
            bdf?.Complete();
        }

        return (Sum(format, name => files.SumOf($"{own.Name}/{name}")), whyNoBdf);
    }

    /// <summary>The sum of the samples of a case: of the lines that sha256sum prints of its raw files, so that it can be had without this program.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="sumOf">Gives the SHA-256 of a file of the case.</param>
    internal static string Sum(StreamFormat format, Func<string, string> sumOf)
    {
        var lines = new StringBuilder();
        foreach (string name in format.Channels.SelectMany(c => new[] { SetNames.Codes(c.Name), SetNames.Runs(c.Name) }).Prepend(SetNames.StimulusChannels))
        {
            lines.Append(sumOf(name)).Append("  ").Append(name).Append('\n');
        }

        return Sha256Sum.Of(lines.ToString());
    }
}
