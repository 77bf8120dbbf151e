// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Links.Bluetooth;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Bluetooth;

/// <summary>The rows of known-answers.txt, and the text form of a value in which they stand.</summary>
internal static class KnownAnswers
{
    public static IEnumerable<(string Characteristic, byte[] Value, string Fields)> All()
        => File.ReadLines(Path.Combine(CCompiler.Root, "tests", "SensorSim.Links.Tests", "Bluetooth", "known-answers.txt"))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries))
            .Select(parts => (parts[0], Convert.FromHexString(parts[1].Replace(" ", "", StringComparison.Ordinal)), parts[2]));

    /// <summary>What a value says, by the codec in C#, and the same value made again; null when it is refused.</summary>
    public static (string Fields, byte[] Again)? Read(string characteristic, ReadOnlySpan<byte> value)
    {
        var again = new byte[256];
        var intervals = new ushort[128];
        switch (characteristic)
        {
            case "2A37" when HeartRateMeasurement.TryRead(value, out HeartRateMeasurement h, intervals, out int count):
                return ($"rate={h.RateBpm} wide={YesNo(h.IsWide)} contact={(h.Contact == SkinContact.NotTold ? "-" : YesNo(h.Contact == SkinContact.Yes))} "
                    + $"energy={h.EnergyKilojoules?.ToString(CultureInfo.InvariantCulture) ?? "-"} intervals={(count == 0 ? "-" : string.Join(',', intervals[..count]))}",
                    again[..h.Write(intervals.AsSpan(0, count), again)]);
            case "2A5E" when OximeterSpotCheck.TryRead(value, out OximeterSpotCheck s):
                return ($"spo2={Number(s.SaturationPercent)} rate={Number(s.PulseRateBpm)} time={Time(s.Time)} status={Word(s.Status)} device={Device(s.DeviceStatus)} "
                    + $"amplitude={Number(s.AmplitudePercent)} unset={YesNo(s.IsClockUnset)}",
                    again[..s.Write(again)]);
            case "2A5F" when OximeterContinuous.TryRead(value, out OximeterContinuous c):
                return ($"spo2={Number(c.Normal.SaturationPercent)} rate={Number(c.Normal.PulseRateBpm)} fast={Pair(c.Fast)} slow={Pair(c.Slow)} status={Word(c.Status)} "
                    + $"device={Device(c.DeviceStatus)} amplitude={Number(c.AmplitudePercent)}",
                    again[..c.Write(again)]);
            case "2A35" when BloodPressureMeasurement.TryRead(value, out BloodPressureMeasurement b):
                return ($"systolic={Number(b.Systolic)} diastolic={Number(b.Diastolic)} mean={Number(b.Mean)} kpa={YesNo(b.IsInKilopascal)} time={Time(b.Time)} "
                    + $"rate={Number(b.PulseRateBpm)} user={b.User?.ToString(CultureInfo.InvariantCulture) ?? "-"} status={Word(b.Status)}",
                    again[..b.Write(again)]);
            default:
                return null;
        }
    }

    public static string Number(SFloat? number) => number is not SFloat n ? "-" : n.Raw switch
    {
        0x07FF => "nan",
        0x0800 => "nres",
        0x07FE => "+inf",
        0x0802 => "-inf",
        0x0801 => "reserved",
        _ => string.Create(CultureInfo.InvariantCulture, $"{n.Mantissa}E{n.Exponent}"),
    };

    private static string YesNo(bool isYes) => isYes ? "yes" : "no";

    private static string Word(ushort? word) => word is ushort w ? w.ToString("X4", CultureInfo.InvariantCulture) : "-";

    private static string Device(int? bits) => bits is int b ? b.ToString("X6", CultureInfo.InvariantCulture) : "-";

    private static string Pair(OximeterPair? pair) => pair is OximeterPair p ? $"{Number(p.SaturationPercent)}/{Number(p.PulseRateBpm)}" : "-";

    private static string Time(DeviceTime? time)
        => time is DeviceTime t ? string.Create(CultureInfo.InvariantCulture, $"{t.Year}-{t.Month}-{t.Day}T{t.Hour}:{t.Minute}:{t.Second}") : "-";
}
