// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Rows;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>What the acquisition did, out of the annotations of our own files.</summary>
public class EdfAcquisitionTests
{
    private const long Ms = 1_000_000;

    [Test]
    public void Rows_OfAnOwnFile_AreWhatHappened()
    {
        using var folder = new TestFolder();
        Make(folder);
        using EdfAcquisition acquisition = EdfAcquisition.Open(folder["rec"])!;
        List<AcquisitionRow> rows = [.. acquisition.ReadAll()];

        // Samples 240 to 259 of 250 a second, over the end of a record; a setting holds to the next one, or to the end at 2.6 s.
        Assert.That(rows.Where(r => r.Channel == ChannelName.Ecg && r.Item is not ("device" or "rate_hz" or "bits" or "unit_per_code")), Is.EquivalentTo(new AcquisitionRow[]
        {
            new(ChannelName.Ecg, "declared_delay_ns", 0, null, 12_345, "ns", ""),
            new(ChannelName.Ecg, "clock_segment_ppm", 0, 2600 * Ms, -35.5, "ppm", ""),
            new(ChannelName.Ecg, "clock_offset_ns", 0, 2600 * Ms, 1_200_000, "ns", ""),
            new(ChannelName.Ecg, "gap", 960 * Ms, 1040 * Ms, 20, "samples", ""),
            new(ChannelName.Ecg, "unusable_lost", 900 * Ms, 1200 * Ms, double.NaN, "", ""),
        }));
        Assert.That(rows.Where(r => r.Channel == ChannelName.Red && !r.Item.StartsWith("clock", StringComparison.Ordinal)).Skip(5), Is.EquivalentTo(new AcquisitionRow[]
        {
            new(ChannelName.Red, "setting_led_current_ma", 500 * Ms, 1500 * Ms, 3, "mA", ""),
            new(ChannelName.Red, "setting_led_current_ma", 1500 * Ms, 2600 * Ms, 5, "mA", ""),
            new(ChannelName.Red, "late_packet", 700 * Ms, 800 * Ms, 30, "ms", ""),
        }));
        Assert.That(rows.Single(r => r is { Channel: ChannelName.AccelZ, Item: "device" }).Label, Is.EqualTo("wrist"));
    }

    [Test]
    public void Open_FileOfSomebodyElse_HasNone()
    {
        using var folder = new TestFolder();
        Assert.That(EdfAcquisition.Open(EdfForeignTests.Make(folder, EdfForeignTests.Signal("ECG", "mV"))), Is.Null);
    }

    [Test]
    public void Open_DeviceThatNoTableCanHold_IsAFileOfSomebodyElse()
    {
        using var folder = new TestFolder();
        Make(folder);
        string path = folder["rec/recording.bdf"];
        byte[] bytes = File.ReadAllBytes(path);
        int at = bytes.AsSpan(0, 256).IndexOf("wrist"u8);
        bytes[at + 1] = (byte)',';
        File.WriteAllBytes(path, bytes);
        Assert.That(EdfAcquisition.Open(path), Is.Null);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Channels[0].Device, Is.EqualTo("recording"));
    }

    [TestCase("acquisition ecg unusable_lost", "acquisition ecg unusable,lost")]
    [TestCase("acquisition ecg unusable_lost", "acquisition toe unusable_lost")]
    [TestCase("acquisition red late_packet value 30", "acquisition red late_packet value 3e")]
    [TestCase("gap ecg 240:10", "gap ecg 999:10")]
    [TestCase("gap ecg 240:10", "gap ecg 240:xx")]
    [TestCase("clock ecg offset_ns 1200000", "clock ecg offset_ns 12000o0")]
    public void Rows_BrokenText_IsNoRow(string text, string broken)
    {
        using var folder = new TestFolder();
        Make(folder);
        string path = folder["rec/recording.bdf"];
        byte[] bytes = File.ReadAllBytes(path);
        int at = bytes.AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(text));
        Assert.That(at, Is.Positive, text);
        System.Text.Encoding.ASCII.GetBytes(broken).CopyTo(bytes, at);
        using EdfAcquisition whole = EdfAcquisition.Open(path)!;
        List<AcquisitionRow> before = [.. whole.ReadAll()];
        File.WriteAllBytes(path, bytes);
        using EdfAcquisition acquisition = EdfAcquisition.Open(path)!;
        List<AcquisitionRow> rows = [.. acquisition.ReadAll()];
        Assert.That(rows, Is.Not.EqualTo(before));
        Assert.That(rows.Select(r => r.Item).Distinct(), Is.SubsetOf(before.Select(r => r.Item).Distinct()));
    }

    private static void Make(TestFolder folder)
    {
        StreamFormat format = EdfStreams.Wrist();
        long end = format.Clock.TicksPerSecond * 26 / 10;
        Sample[][] samples = [.. Enumerable.Range(0, format.Channels.Count).Select(
            c => EdfStreams.Make(format, c, end, i => c == 0 && i is >= 240 and < 260, _ => 0).ToArray())];
        var options = new EdfWriteOptions { Clocks = [new ChannelClock(ChannelName.Ecg, 1_200_000, -35.5)] };
        EdfStreams.Write(folder["rec"], format, samples, end, options, more: writer =>
        {
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.UnusableLost, 900 * Ms, 1000 * Ms, double.NaN));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.UnusableLost, 1000 * Ms, 1200 * Ms, double.NaN));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.Setting, 500 * Ms, 500 * Ms, 3, SensorSetting.LedCurrentMa));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.LatePacket, 700 * Ms, 800 * Ms, 30));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.Setting, 1500 * Ms, 1500 * Ms, 5, SensorSetting.LedCurrentMa));
        });
    }
}
