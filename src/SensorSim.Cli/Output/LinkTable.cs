// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detectors.Boards;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Output;

/// <summary>Prints how a run over a link went.</summary>
internal static class LinkTable
{
    /// <summary>Prints it.</summary>
    /// <param name="text">Where to.</param>
    /// <param name="link">What.</param>
    /// <param name="exact">What came of the demand to be bit-exact; null when nothing was demanded.</param>
    public static void Print(TextWriter text, LinkSummary link, ExactSummary? exact)
    {
        text.WriteLine();
        text.WriteLine($"link: {link.Link}");
        string how = link.Speed is double speed ? Invariant($"at {speed:0.###} x real time") : "as fast as the board took it";
        text.WriteLine(Invariant($"sent from {link.BeginS:0.###} s on, {how}{(link.IsStopped ? ", stopped early" : "")}"));
        BoardCounts c = link.Counts;
        PlainTables.PrintApart(
            text,
            ["direction", "frames sent>", "accepted>", "damaged>", "missing>", "repeated>", "bytes>"],
            [
                ["to the board", Whole(c.FramesSent), Whole(c.BoardAccepted), Whole(c.BoardDamaged), Whole(c.BoardMissing), Whole(c.BoardRepeated), Whole(c.BytesSent)],
                ["from the board", "-", Whole(c.FramesReceived), Whole(c.FramesDamaged), Whole(c.FramesMissing), Whole(c.FramesRepeated), Whole(c.BytesReceived)],
            ]);
        text.WriteLine(Invariant($"answers: {c.AnswersReceived} came, {c.AnswersAnnounced} were announced, {c.AnswersLost} were lost; troubles told by the board: {c.Troubles}"));
        if (c.Reconnects + c.SessionsBegunAnew > 0)
        {
            text.WriteLine(Invariant($"the line was lost and came back {Plural.Of(c.Reconnects, "time")}; {Plural.Of(c.SessionsBegunAnew, "session")} had to begin anew{(c.SessionsBegunAnew > 0 ? "; what a board counted between its last report and its reset nobody knows" : "")}"));
        }

        foreach (LinkDamage damage in link.Damage)
        {
            text.WriteLine(Invariant($"damage on purpose, {damage.Direction.Replace('_', ' ')}: {string.Join(", ", damage.Counts.Select(d => Invariant($"{d.Count} {d.What.Replace('_', ' ')}")))}"));
        }

        List<string[]> times = [];
        Add(times, "answer after its last sample was written", link.LatencyMs);
        Add(times, "frame written after it was due", link.PacingErrorMs);
        bool isAfterTable = times.Count > 0;
        if (isAfterTable)
        {
            text.WriteLine();
            PlainTables.Print(text, ["time", "count>", "p50 [ms]>", "p90 [ms]>", "p99 [ms]>", "largest [ms]>"], times);
        }

        if (link.JudgedCount > 0)
        {
            Part(text, ref isAfterTable);
            text.WriteLine(Invariant($"deadline {link.DeadlineMs:0.###} ms after an answer's last sample was due: {link.MissedDeadlines} of {link.JudgedCount} missed"));
        }

        if (link.Figures.Count > 0)
        {
            text.WriteLine();
            PlainTables.Print(text, ["measured by the board", "index>", "value>"], link.Figures.Select(f => new[] { f.Name, f.Index is int i ? Whole(i) : "", Whole(f.Value) }));
            isAfterTable = true;
            if (link.Figures.Any(f => f.Name.EndsWith("timer_ticks", StringComparison.Ordinal)))
            {
                Part(text, ref isAfterTable);
                text.WriteLine("timer_ticks: sum over the session, in ticks of the finest counter that the board has; which one that is only its firmware knows");
            }
        }

        if (exact is not null)
        {
            Part(text, ref isAfterTable);
            Print(text, exact);
        }
    }

    // One empty line between a table and the text after it.
    private static void Part(TextWriter text, ref bool isAfterTable)
    {
        if (isAfterTable)
        {
            text.WriteLine();
        }

        isAfterTable = false;
    }

    private static void Print(TextWriter text, ExactSummary exact)
    {
        text.WriteLine(exact.IsMet
            ? Invariant($"bit-exact: {exact.EqualCount} marks, in every field those of {exact.Library}")
            : Invariant($"NOT bit-exact: {exact.EqualCount} marks as those of {exact.Library}, {exact.DifferentCount} different, {exact.OnlyLibraryCount} only the library's, {exact.OnlyDetectorCount} only the detector's"));
        if (exact.First is string first)
        {
            text.WriteLine($"first difference: {first}");
        }
    }

    private static void Add(List<string[]> rows, string what, Percentiles? percentiles)
    {
        if (percentiles is Percentiles p && p.Count > 0)
        {
            rows.Add([what, Whole(p.Count), Ms(p.P50), Ms(p.P90), Ms(p.P99), Ms(p.Largest)]);
        }
    }

    private static string Ms(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
