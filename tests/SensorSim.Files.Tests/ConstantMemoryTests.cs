// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class ConstantMemoryTests
{
    private const int Rows = 300_000;
    private const int ManyFiles = 500;

    [Test]
    public void TruthAndDetections_ManyRows_AllocateNothingPerRow()
    {
        using var folder = new TestFolder();
        long before = GC.GetAllocatedBytesForCurrentThread();
        using (var truth = new TruthCsvWriter(File.Create(folder["truth.csv"])))
        using (var detections = new DetectionsCsvWriter(File.Create(folder["detections.csv"]), Streams.Format()))
        {
            for (int i = 0; i < Rows; i++)
            {
                truth.Write(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, i * 800_000_000L, 1.0 / (i + 3), i, BeatClass.Normal, TruthFlags.Ambiguous));
                detections.Write(new Mark { Kind = MarkKind.HeartRateBpm, Sample = i * 200L, HasValue = true, ValueMilli = 75_000 + (i % 999), EmittedTick = i * 400L });
            }
        }

        long count = 0;
        using (var truth = new TruthCsvReader(folder["truth.csv"]))
        using (var detections = new DetectionsCsvReader(folder["detections.csv"]))
        {
            while (truth.TryRead(out TruthEvent a) && detections.TryRead(out DetectionRow b))
            {
                count += a.TimeNs == b.TimeNs && a.Value == 1.0 / (count + 3) ? 1 : 0;
            }
        }

        // Buffers of four files of about 200 KB each; one object per row would be tens of megabytes.
        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.LessThan(2_000_000));
        Assert.That(count, Is.EqualTo(Rows));
    }

    // A day with lost packets has a million rows of gaps and unusable stretches, and many of them are held at once: their words must not be a string each.
    [Test]
    public void Acquisition_ManyRows_ShareTheirWords()
    {
        using var folder = new TestFolder();
        using (var text = new StreamWriter(folder["acquisition.csv"]))
        {
            text.Write("channel,item,begin_ns,end_ns,value,unit,label\n");
            for (int i = 0; i < Rows; i++)
            {
                text.Write(i % 2 == 0 ? FormattableString.Invariant($"ecg,unusable_lost,{i}00,{i}50,,,\n") : FormattableString.Invariant($"red,gap,{i}00,{i}50,3,samples,radio\n"));
            }
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        long right = 0;
        using (var reader = new AcquisitionCsvReader(folder["acquisition.csv"]))
        {
            for (long i = 0; reader.TryRead(out AcquisitionRow row); i++)
            {
                right += row.BeginNs == i * 100 && (i % 2 == 0 ? row.Item == "unusable_lost" && row.Label.Length == 0 : row is { Item: "gap", Unit: "samples", Label: "radio" }) ? 1 : 0;
            }
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.LessThan(2_000_000));
        Assert.That(right, Is.EqualTo(Rows));
    }

    // A set has thousands of files. A buffer kept for each closed one would be 32 MB here, and of comparisons 10 MB.
    [Test]
    [NonParallelizable]
    public void ManyFiles_OnceClosed_KeepNoBuffers()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["out"]);
        var compared = new List<ByteComparison>();
        byte[] bytes = new byte[20_000];
        long before = GC.GetTotalMemory(forceFullCollection: true);
        for (int i = 0; i < ManyFiles; i++)
        {
            using (Stream file = output.CreateFile($"{i}.bin"))
            {
                file.Write(bytes);
            }

            var comparison = new ByteComparison(output.PathOf($"{i}.bin"));
            comparison.Write(bytes);
            comparison.Dispose();
            compared.Add(comparison);
        }

        Assert.That(GC.GetTotalMemory(forceFullCollection: true) - before, Is.LessThan(2_000_000));
        Assert.That(compared.Select(c => c.DifferenceAt), Is.All.EqualTo(-1));
        GC.KeepAlive(output);
    }
}
