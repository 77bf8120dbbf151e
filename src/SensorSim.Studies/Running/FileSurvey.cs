// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>A first look at two files: which rows of scores they call for, and where they end.</summary>
/// <param name="ExpectedRows">R peaks if truth has them; feet by tangents of the channels in which marks or truth have them.</param>
/// <param name="LastNs">Time of the last row of truth [ns].</param>
/// <param name="MarkCount">Marks in the file.</param>
internal sealed record FileSurvey(IReadOnlyList<ExpectedRow> ExpectedRows, long LastNs, long MarkCount)
{
    public static FileSurvey Of(string truthPath, int? rateHz, string marksPath)
    {
        var truthRows = new SortedSet<(ChannelName Channel, MarkKind Kind)>();
        long lastNs = 0;
        using (IRowReader<TruthEvent> truth = TruthFile.Open(truthPath, rateHz))
        {
            while (truth.TryRead(out TruthEvent row))
            {
                truthRows.Add((row.Channel, row.Kind));
                lastNs = Math.Max(lastNs, row.TimeNs);
            }
        }

        var markRows = new SortedSet<(ChannelName Channel, MarkKind Kind)>();
        long markCount = 0;
        using (var marks = new DetectionsCsvReader(marksPath))
        {
            while (marks.TryRead(out DetectionRow row))
            {
                markRows.Add((row.Channel, row.Kind));
                markCount++;
            }
        }

        var expected = truthRows.Where(r => r.Kind == MarkKind.RPeak).ToList();
        var feet = truthRows.Where(r => r.Kind == MarkKind.PulseFootTangent).ToList();

        // A detector works on one colour: it owes the feet of the colours that it reports, or of infrared when it reports none.
        var given = feet.Where(markRows.Contains).ToList();
        expected.AddRange(given.Count > 0 ? given : feet.OrderBy(r => r.Channel == ChannelName.Infrared ? 0 : 1).Take(1));
        return new FileSurvey([.. expected.Select(r => new ExpectedRow(r.Channel, r.Kind))], lastNs, markCount);
    }
}
