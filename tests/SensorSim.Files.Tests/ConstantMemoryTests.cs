// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class ConstantMemoryTests
{
    private const int Rows = 300_000;

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
}
