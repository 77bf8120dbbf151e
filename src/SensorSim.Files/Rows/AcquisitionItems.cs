// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>The items of <c>acquisition.csv</c> that the project itself writes and reads.</summary>
public static class AcquisitionItems
{
    /// <summary>Name of the device, as label.</summary>
    public const string Device = "device";

    /// <summary>Nominal sampling rate [Hz].</summary>
    public const string RateHz = "rate_hz";

    /// <summary>Bits of the converter.</summary>
    public const string Bits = "bits";

    /// <summary>Physical value of one code step [unit of the channel per code].</summary>
    public const string UnitPerCode = "unit_per_code";

    /// <summary>Deviation of the actual sampling rate from the nominal one over a stretch [ppm].</summary>
    public const string ClockSegmentPpm = "clock_segment_ppm";

    /// <summary>What the device's clock shows at body time 0, less what is declared [ns].</summary>
    public const string ClockOffsetNs = "clock_offset_ns";

    /// <summary>Declared delay of the chain [ns].</summary>
    public const string DeclaredDelayNs = "declared_delay_ns";

    /// <summary>Samples that the sensor never delivered; value: how many.</summary>
    public const string Gap = "gap";

    /// <summary>A packet that came late; value: by how much [ms].</summary>
    public const string LatePacket = "late_packet";

    /// <summary>Start of every item that gives a level of a disturbance.</summary>
    public const string LevelPrefix = "level_";

    /// <summary>Start of every item that gives a setting of the sensor, for as long as it held.</summary>
    public const string SettingPrefix = "setting_";

    /// <summary>Start of every item that marks a stretch as unusable.</summary>
    public const string UnusablePrefix = "unusable_";

    private static readonly string[] s_settings =
    [
        SettingPrefix + "led_current_ma", SettingPrefix + "pulse_width_us", SettingPrefix + "gain", SettingPrefix + "decimation",
    ];

    private static readonly string[] s_settingUnits = ["mA", "us", "", ""];

    /// <summary>The items of settings, in the order of <see cref="SensorSetting"/>.</summary>
    internal static IList<string> Settings => s_settings;

    /// <summary>The unit of the value of an item that an event is written under; empty when it has none.</summary>
    /// <param name="item">The item.</param>
    internal static string UnitOf(string item) => item switch
    {
        Gap => "samples",
        LatePacket => "ms",
        _ => Array.IndexOf(s_settings, item) is >= 0 and int setting ? s_settingUnits[setting] : "",
    };

    /// <summary>The item and the unit under which an event is written.</summary>
    /// <param name="happened">The event.</param>
    public static (string Item, string Unit) Of(in AcquisitionEvent happened) => happened.Kind switch
    {
        AcquisitionKind.UnusableLeadOff => (UnusablePrefix + "lead_off", ""),
        AcquisitionKind.UnusableSaturated => (UnusablePrefix + "saturated", ""),
        AcquisitionKind.UnusableLost => (UnusablePrefix + "lost", ""),
        AcquisitionKind.UnusableNoContact => (UnusablePrefix + "no_contact", ""),
        AcquisitionKind.Gap => (Gap, UnitOf(Gap)),
        AcquisitionKind.LatePacket => (LatePacket, UnitOf(LatePacket)),
        AcquisitionKind.Setting => (s_settings[(int)happened.Setting], s_settingUnits[(int)happened.Setting]),
        _ => throw new ArgumentOutOfRangeException(nameof(happened), happened.Kind, "Not a kind of acquisition event."),
    };
}
