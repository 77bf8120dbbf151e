// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Detection.Tests;

/// <summary>A real ambulatory ECG with a quarter of ventricular beats; origin and beat list: waveforms/recorded/README.md.</summary>
[TestFixture]
public sealed class RecordedEcgTests
{
    private const int RateHz = 360;

    // Steps of the recording are 5 µV; a converter of 1 µV a code gives five times the codes.
    [TestCase(1)]
    [TestCase(5)]
    public void Take_FirstHalf_MissesAtMostOneAndAddsAtMostOne(int codesPerStep)
    {
        int[] codes = [.. Lines("ambulatory-ecg.csv").Select(line => (int)Math.Round(Number(line) / 0.005) * codesPerStep)];
        string[][] rows = [.. Lines("ambulatory-ecg-beats.csv").Select(line => line.Split(','))];
        double[] found = [.. Runs.Beats(codes, RateHz).Select(b => Runs.Seconds(b.RPeak, RateHz))];

        var missed = new List<double>();
        var offTime = new List<string>();
        foreach (string[] row in rows.Where(r => r[3] == "high" && IsScored(Number(r[1]))))
        {
            double time = Number(row[1]);
            double error = found.Select(f => f - time).MinBy(Math.Abs);
            if (Math.Abs(error) > 0.15)
            {
                missed.Add(time);
            }
            else if (Math.Abs(error) > (row[2] == "wide" ? 0.05 : 0.01))
            {
                offTime.Add($"{row[1]} {row[2]} {error * 1000:F1} ms");
            }
        }

        double[] extra = [.. found.Where(f => IsScored(f) && rows.All(r => Math.Abs(Number(r[1]) - f) > 0.15))];
        Assert.That(missed, Has.Count.LessThanOrEqualTo(1), "misses");
        Assert.That(extra, Has.Length.LessThanOrEqualTo(1), "extras");
        Assert.That(offTime, Is.Empty);
    }

    private static bool IsScored(double timeS) =>
        timeS is >= 15 and < 150 && timeS is not (>= 42.45 and <= 44.00) && timeS is not (>= 96.40 and <= 98.85);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static IEnumerable<string> Lines(string file) =>
        File.ReadLines(Path.Combine(Root(), "waveforms", "recorded", file)).Skip(1);

    // From the place of the tests, not of the source: a build server's compiler is told no paths.
    private static string Root()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
