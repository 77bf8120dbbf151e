// SPDX-License-Identifier: MIT
using SensorSim.Links.Bluetooth;

namespace SensorSim.Links.Tests.Bluetooth;

/// <summary>Values of characteristics read and made, against known answers and on any bytes.</summary>
public sealed class CharacteristicTests
{
    [Test]
    public void Read_KnownAnswers_SayTheirFieldsAndAreMadeAgain()
    {
        int rows = 0;
        foreach ((string characteristic, byte[] value, string fields) in KnownAnswers.All())
        {
            (string Fields, byte[] Again)? read = KnownAnswers.Read(characteristic, value);
            Assert.That(read?.Fields, Is.EqualTo(fields), characteristic);
            Assert.That(read!.Value.Again, Is.EqualTo(value), fields);

            // No byte may be missing or left over.
            Assert.That(KnownAnswers.Read(characteristic, value.AsSpan(0, value.Length - 1)), Is.Null, fields);
            Assert.That(KnownAnswers.Read(characteristic, [.. value, 0]), Is.Null, fields);
            rows++;
        }

        Assert.That(rows, Is.EqualTo(22));
    }

    [Test]
    public void Write_ValuesInWords_AreTheBytesOfTheExamples()
    {
        var value = new byte[HeartRateMeasurement.UsualRoom];
        Assert.That(
            Convert.ToHexString(value, 0, new HeartRateMeasurement(72) { Contact = SkinContact.Yes }.Write([853, 1024], value)),
            Is.EqualTo("164855030004"));
        var pressure = new BloodPressureMeasurement(SFloat.FromMilli(120_000, 0), SFloat.FromMilli(80_000, 0), SFloat.FromMilli(93_300, -1))
        {
            Time = new DeviceTime(2026, 3, 2, 10, 11, 12),
            PulseRateBpm = SFloat.FromMilli(72_000, 0),
            User = 1,
            Status = (ushort)BloodPressureStatus.IrregularPulse,
        };
        Assert.That(Convert.ToHexString(value, 0, pressure.Write(value)), Is.EqualTo("1E78005000A5F3EA0703020A0B0C4800010400"));
        var spot = new OximeterSpotCheck(SFloat.FromMilli(97_000, 0), SFloat.FromMilli(72_000, 0))
        {
            Time = new DeviceTime(2026, 3, 2, 10, 11, 12),
            Status = (ushort)(OximeterStatus.Ongoing | OximeterStatus.FullyQualified),
            DeviceStatus = (int)OximeterDeviceStatus.LowPerfusion,
            AmplitudePercent = SFloat.FromMilli(1500, -1),
        };
        Assert.That(Convert.ToHexString(value, 0, spot.Write(value)), Is.EqualTo("0F61004800EA0703020A0B0C20012000000FF0"));
    }

    [Test]
    public void IntervalRoom_TwentyBytes_HoldNineOrEight()
    {
        Assert.That(new HeartRateMeasurement(72).IntervalRoom(HeartRateMeasurement.UsualRoom), Is.EqualTo(9));
        Assert.That(new HeartRateMeasurement(300).IntervalRoom(HeartRateMeasurement.UsualRoom), Is.EqualTo(8));
        Assert.That(new HeartRateMeasurement(72) { EnergyKilojoules = 1 }.IntervalRoom(HeartRateMeasurement.UsualRoom), Is.EqualTo(8));
        Assert.That(() => new HeartRateMeasurement(72).Write(new ushort[10], new byte[20]), Throws.ArgumentException);
        Assert.That(() => new HeartRateMeasurement(65_536).Write([], new byte[20]), Throws.ArgumentException);
    }

    [TestCase("02EA070D020A0B0C")]
    [TestCase("02EA070320 0A0B0C")]
    [TestCase("022D060302 0A0B0C")]
    [TestCase("02EA07030218 0B0C")]
    [TestCase("02EA0703020A3C0C")]
    [TestCase("02EA0703020A0B3C")]
    public void TryRead_TimeThatIsNone_IsRefused(string flagsAndTime)
    {
        byte[] bytes = Convert.FromHexString(flagsAndTime.Replace(" ", "", StringComparison.Ordinal));
        Assert.That(KnownAnswers.Read("2A35", [bytes[0], 0x78, 0, 0x50, 0, 0xFF, 7, .. bytes[1..]]), Is.Null);
        Assert.That(KnownAnswers.Read("2A5E", [1, 0x61, 0, 0x48, 0, .. bytes[1..]]), Is.Null);
    }

    [Test]
    public void Read_AnyBytes_NeverThrowsAndWhatIsReadIsMadeTheSame()
    {
        var random = new Random(11);
        int read = 0;
        for (int i = 0; i < 50_000; i++)
        {
            var value = new byte[random.Next(24)];
            random.NextBytes(value);
            foreach (string characteristic in new[] { "2A37", "2A5E", "2A5F", "2A35" })
            {
                if (KnownAnswers.Read(characteristic, value) is (string fields, byte[] again))
                {
                    Assert.That(KnownAnswers.Read(characteristic, again)?.Fields, Is.EqualTo(fields));
                    Assert.That(again[1..], Is.EqualTo(value[1..]), "all but reserved flags");
                    read++;
                }
            }
        }

        Assert.That(read, Is.GreaterThan(1000));
    }
}
