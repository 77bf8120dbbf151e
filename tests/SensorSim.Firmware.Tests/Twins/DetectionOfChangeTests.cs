// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The comparison sees a twin that is off by a single number.</summary>
[TestFixture]
public sealed class DetectionOfChangeTests
{
    [TestCase("beats/beat_levels.c", "5 * ss_shift_right32(span, 3)", "6 * ss_shift_right32(span, 3)")]
    [TestCase("movement/sine_table.c", "804", "814")]
    [TestCase("readings/heart_rate.c", "ss_shift_floor(trust, 3)", "ss_shift_floor(trust, 4)")]
    [TestCase("gate/usable.h", "SETTLE_MS 3000", "SETTLE_MS 3600", Category = "Slow")]
    [TestCase("pulses/pulse_levels.c", "ss_ranks_of_eight(&self->signals, 5)", "ss_ranks_of_eight(&self->signals, 4)")]
    [TestCase("fixed_point/parabola.c", "ss_shift_right32(magnitude, 1)", "ss_shift_right32(magnitude, 2)")]
    public void Answers_OfChangedTwin_DifferSomewhere(string file, string before, string after)
    {
        string folder = Path.Combine(TwinBuild.Folder, "changed-" + Path.GetFileNameWithoutExtension(file));
        Copy(Path.Combine(TwinBuild.Firmware, "library"), folder);
        string path = Path.Combine(folder, file);
        string text = File.ReadAllText(path);
        Assert.That(text, Does.Contain(before), "choose another number to change");
        int at = text.IndexOf(before, StringComparison.Ordinal);
        File.WriteAllText(path, text[..at] + after + text[(at + before.Length)..]);

        using var twin = new TwinLibrary(TwinBuild.MakeChanged(folder, file, "gcc", Path.GetFileNameWithoutExtension(file) + "-changed.so", "-O0", "-shared", "-fPIC"));
        string?[] differences =
        [
            .. TwinCases.Scenarios.Where(each => each.Contains("all-on", StringComparison.Ordinal) || each.Contains("walk", StringComparison.Ordinal))
                .Select(each => TwinStreams.Scenario(each, 60, TwinCases.Options[1], twin).Difference),
            .. Enumerable.Range(1, 60).Select(seed => TwinStreams.Hostile(seed, 90, 0, TwinCases.Options[0], twin).Difference),
        ];
        Assert.That(differences, Has.Some.Not.Null);
        TestContext.Out.WriteLine(differences.First(each => each is not null));
    }

    private static void Copy(string from, string to)
    {
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }
}
