// SPDX-License-Identifier: MIT
using SensorSim.Cli.Tests.Boards;

namespace SensorSim.Cli.Tests;

/// <summary>An accelerometer that the library leaves unused is told, by every verb in which the library answers, and only then.</summary>
[TestFixture]
public sealed class AccelerometerTests : CommandTest
{
    private const string Notice = "the library does not use this accelerometer";

    [TestCase(10, 16, true)]
    [TestCase(50, 16, false)]
    [TestCase(12, 16, false)]
    public void Run_Accelerometer_IsToldWhereItIsLeftUnused(int rateHz, int bits, bool isTold)
    {
        string scenario = Write("s.toml", $"[scenario]\nduration_s = 12\n[accelerometer]\nrate_hz = {rateHz}\nbits = {bits}\n");
        Answer run = Command.Run("run", scenario);
        Answer record = Command.Run("record", scenario, "--out", At("rec"));
        Answer detect = Command.Run("detect", At("rec"));

        Assert.That(new[] { run.Code, record.Code, detect.Code }, Is.All.Zero, run.Error);
        Assert.That(run.Error.Contains(Notice, StringComparison.Ordinal), Is.EqualTo(isTold), run.Error);
        Assert.That(detect.Error.Contains(Notice, StringComparison.Ordinal), Is.EqualTo(isTold), detect.Error);
        Assert.That(record.Error, Does.Not.Contain(Notice), "nothing detects there");
    }

    [TestCase(10, true)]
    [TestCase(50, false)]
    public void Replay_Accelerometer_IsToldWhereItIsLeftUnused(int rateHz, bool isTold)
    {
        string scenario = Write("s.toml", $"[scenario]\nduration_s = 12\n[accelerometer]\nrate_hz = {rateHz}\n");
        using var board = new BoardPort();
        Answer replay = Command.Run("replay", scenario, "--link", board.Address, "--as-fast-as-possible", "--expect", "bit-exact");

        Assert.That(replay.Code, Is.Zero, replay.Error);
        Assert.That(replay.Error.Contains(Notice, StringComparison.Ordinal), Is.EqualTo(isTold), replay.Error);
    }

    // The rate of the scenario, those that the study varies, where it is told, and how often.
    [TestCase(10, "", "", 1)]
    [TestCase(50, "", "", 0)]
    [TestCase(10, "50, 100", "", 0)]
    [TestCase(50, "10, 50, 100", "at 1 of 3 points ", 1)]
    public void Sweep_Accelerometer_IsToldWithItsPointsAndAgainByCompare(int rateHz, string varied, string where, int count)
    {
        Write("s.toml", $"[scenario]\nduration_s = 14\n[accelerometer]\nrate_hz = {rateHz}\n");
        string vary = varied.Length == 0 ? "" : $"[[vary]]\nkey = \"accelerometer.rate_hz\"\nvalues = [{varied}]\n";
        string study = Write("study.toml", $"[study]\nscenario = \"s.toml\"\nseed_count = 2\n{vary}[requirements]\nr_peak_sensitivity_min = 0.9\n");
        Answer sweep = Command.Run("sweep", study, "--out", At("out"));
        Answer compare = Command.Run("compare", At("out"), At("out"));
        Answer again = Command.Run("sweep", study, "--out", At("out"));

        Assert.That(new[] { sweep.Code, compare.Code, again.Code }, Is.All.Zero, sweep.Error);
        foreach (Answer answer in new[] { sweep, compare, again })
        {
            Assert.That(answer.Messages.Count(m => m.StartsWith($"sensorsim: {where}{Notice}", StringComparison.Ordinal)), Is.EqualTo(count), answer.Error);
        }
    }

    [Test]
    public void Detect_OneAxisOfThree_IsTold()
    {
        Command.Run("record", Write("s.toml", "[scenario]\nduration_s = 12\n"), "--out", At("rec"));
        File.Delete(At("rec", "accel_z.csv"));
        string channels = At("rec", "channels.csv");
        File.WriteAllLines(channels, File.ReadAllLines(channels).Where(l => !l.StartsWith("accel_z", StringComparison.Ordinal)));
        Answer detect = Command.Run("detect", At("rec"));

        Assert.That(detect.Code, Is.Zero, detect.Error);
        Assert.That(detect.Error, Does.Contain(Notice + ": it has accel_x and accel_y only; three axes are needed"));
    }
}
