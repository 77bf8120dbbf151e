// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Probing;
using SensorSim.FixedPoint;

namespace SensorSim.Detectors.Tests.Probing;

[TestFixture]
public sealed class StageAuditTests
{
    [TestCase(0, 1)]
    [TestCase(1, 2)]
    [TestCase(127, 8)]
    [TestCase(128, 9)]
    [TestCase(-128, 8)]
    [TestCase(-129, 9)]
    [TestCase(int.MaxValue, 32)]
    [TestCase(int.MinValue, 32)]
    public void UsedBits_OneValue_AreThoseOfTwosComplement(int value, int expected)
    {
        var record = new StageRecord();
        record.Add(value, StageFormat.Of(ProbePoint.EcgBandPass));
        Assert.That(record.UsedBits, Is.EqualTo(expected));
    }

    // 26 bits hold −2^25 to 2^25 − 1.
    [TestCase(1 << 20, 5)]
    [TestCase(3 << 20, 3.415037)]
    [TestCase(-(1 << 25), 0)]
    [TestCase(1 << 27, -2)]
    public void HeadroomBits_LargestMagnitude_IsMeasuredFromTheDeclaredWord(int value, double expected)
    {
        StageFormat format = StageFormat.Of(ProbePoint.EcgInput);
        var record = new StageRecord();
        record.Add(5, format);
        record.Add(value, format);
        record.Add(-5, format);
        Assert.That(record.HeadroomBits(format), Is.EqualTo(expected).Within(1e-6));
    }

    [Test]
    public void ClippedCount_ValuesAtTheRail_AreCounted()
    {
        StageFormat format = StageFormat.Of(ProbePoint.EcgBandPass);
        Assert.That(format.Rail, Is.EqualTo((1 << 25) - 1), "where the energy stage clips");
        var record = new StageRecord();
        foreach (int value in new[] { 0, format.Rail - 1, -format.Rail + 1, format.Rail, -format.Rail, int.MinValue, int.MaxValue })
        {
            record.Add(value, format);
        }

        Assert.That((record.Count, record.ClippedCount), Is.EqualTo((7, 4)));
    }

    // Dropping b bits of evenly spread values: a floor errs by −(1 − 2^−b)/2 in the mean, with a standard deviation of √((1 − 2^−2b)/12).
    [TestCase(1)]
    [TestCase(2)]
    [TestCase(6)]
    public void Round_FloorOfEveryRest_HasTheTextbookNoise(int bits)
    {
        var audit = new StageAudit();
        for (int i = -(1 << 10); i < 1 << 10; i++)
        {
            int after = Shift.Floor(i, bits);
            audit.Round(ProbePoint.EcgFirstSum, i, after, bits);
            audit.See(ProbePoint.EcgFirstSum, after);
        }

        StageRecord record = audit.Rows.Single().Record;
        double steps = 1 << bits;
        Assert.That(record.DroppedBits, Is.EqualTo(bits));
        Assert.That(record.RoundingMean, Is.EqualTo(-(1 - (1 / steps)) / 2).Within(1e-12));
        Assert.That(record.RoundingNoise, Is.EqualTo(Math.Sqrt((1 - (1 / (steps * steps))) / 12)).Within(1e-12));
    }

    [Test]
    public void Round_NoBits_IsNoRounding()
    {
        var audit = new StageAudit();
        audit.Round(ProbePoint.EcgFirstSum, 7, 7, 0);
        audit.See(ProbePoint.EcgFirstSum, 7);
        Assert.That(audit.Rows.Single().Record.RoundedCount, Is.Zero);
        Assert.That(audit.Rows.Single().Record.RoundingNoise, Is.NaN);
    }

    [Test]
    public void Rows_OfNoRun_AreNone() => Assert.That(new StageAudit().Rows, Is.Empty);

    [Test]
    public void Names_OfAllPoints_ReadBack()
    {
        Assert.That(ProbePoint.EcgBandPass.Text(), Is.EqualTo("ecg_band_pass"));
        Assert.That(StageName.All, Is.Unique.And.Count.EqualTo(Enum.GetValues<ProbePoint>().Length));
        foreach (ProbePoint point in Enum.GetValues<ProbePoint>())
        {
            Assert.That(StageName.TryParse(point.Text(), out ProbePoint read), Is.True);
            Assert.That(read, Is.EqualTo(point));
        }

        Assert.That(StageName.TryParse("EcgBandPass", out _), Is.False);
    }

    [Test]
    public void Formats_OfAllPoints_AreWordsThatHoldTheirRail()
    {
        foreach (ProbePoint point in Enum.GetValues<ProbePoint>())
        {
            StageFormat format = StageFormat.Of(point);
            Assert.That(format.Bits, Is.InRange(2, 32));
            Assert.That(format.FractionBits, Is.InRange(0, format.Bits - 1));
            Assert.That(format.Rail, Is.InRange(1, format.Highest), point.Text());
        }
    }
}
