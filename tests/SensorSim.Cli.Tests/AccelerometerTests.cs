// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Tests;

/// <summary>An accelerometer that the library leaves unused is told, by <c>run</c> and <c>detect</c>, and only then.</summary>
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
