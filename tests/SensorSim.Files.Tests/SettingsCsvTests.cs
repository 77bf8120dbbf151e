// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Files.Rows;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class SettingsCsvTests
{
    private static readonly Gen<SettingChange[]> s_rows =
        from rows in (from channel in Gen.Int[0, 7]
                      from setting in Gen.Int[0, 3]
                      from milli in Gen.Int[0, 2_000_000_000]
                      from ns in Gen.Long[0, 700_000_000_000_000]
                      select new SettingChange((ChannelName)channel, (SensorSetting)setting, milli, ns)).Array[0, 30]
        select rows.OrderBy(r => r.EffectiveNs).ToArray();

    [Test]
    public void Settings_AnyRows_ReadBackAsTheSame() => s_rows.Sample(
        rows =>
        {
            string text = Streams.Written(stream =>
            {
                using var writer = new SettingsCsvWriter(stream);
                Array.ForEach(rows, row => writer.Write(row));
            });
            using var reader = new SettingsCsvReader(Streams.Of(text), "settings.csv", (_, _) => new SettingLimits(0, 2_000_000_000, 1));
            Assert.That(reader.ReadAll().ToArray(), Is.EqualTo(rows));
            return true;
        },
        iter: 300,
        threads: 2);

    [TestCase("")]
    [TestCase("de-DE")]
    public void Write_AnyCulture_IsTheDocumentedText(string culture)
    {
        using var _ = new CultureScope(culture);
        string text = Streams.Written(stream =>
        {
            using var writer = new SettingsCsvWriter(stream);
            writer.Write(new SettingChange(ChannelName.Infrared, SensorSetting.LedCurrentMa, 12_345, 1_500_000_000));
            writer.Write(new SettingChange(ChannelName.AccelX, SensorSetting.Decimation, 0, 2_000_000_001));
        });

        Assert.That(text, Is.EqualTo(
            "channel,setting,value,effective_ns\n" +
            "infrared,led_current_ma,12.345,1500000000\n" +
            "accel_x,decimation,0.000,2000000001\n"));
    }
}
