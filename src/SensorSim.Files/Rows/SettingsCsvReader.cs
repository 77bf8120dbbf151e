// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Text;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Reads what <see cref="SettingsCsvWriter"/> writes: rows in ascending order of time.</summary>
public sealed class SettingsCsvReader : CsvRowReader<SettingChange>
{
    /// <summary>Most changes within a second; a control loop makes ten or so.</summary>
    public const int MostPerSecond = 1000;

    private const decimal LargestValue = 2_000_000;
    private static readonly string[] s_columns = SettingsCsv.Header.Split(',');
    private readonly Func<ChannelName, SensorSetting, SettingLimits> _limits;
    private readonly long[] _latest = new long[MostPerSecond];
    private long _lastNs;
    private long _count;

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <param name="limits">The values that a setting of a channel may have.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public SettingsCsvReader(Stream stream, string fileName, Func<ChannelName, SensorSetting, SettingLimits> limits)
        : base(stream, fileName, s_columns, [], isStrict: true) => _limits = limits;

    private protected override SettingChange Parse()
    {
        ChannelName channel = Table.Channel(0);
        if (!SensorSettings.TryParse(Table[1].ToString(), out SensorSetting setting))
        {
            throw Table.Error(1, $"must be one of {string.Join(", ", SensorSettings.All)}");
        }

        SettingLimits limits = _limits(channel, setting);
        if (!limits.Exists)
        {
            throw Table.Error(1, $"is nothing that channel {channel.Text()} of this scenario has");
        }

        long ns = Table.Integer(3, 0, long.MaxValue / 4);
        if (ns < _lastNs)
        {
            throw Table.Error(3, string.Create(CultureInfo.InvariantCulture, $"must not be before that of the row above, {_lastNs}"));
        }

        int place = (int)(_count % MostPerSecond);
        if (_count >= MostPerSecond && ns - _latest[place] < 1_000_000_000)
        {
            throw Table.Error(3, string.Create(CultureInfo.InvariantCulture, $"must leave at most {MostPerSecond} changes in a second"));
        }

        _latest[place] = ns;
        _count++;
        _lastNs = ns;
        return new SettingChange(channel, setting, Milli(setting, limits), ns);
    }

    private int Milli(SensorSetting setting, SettingLimits limits)
    {
        if (decimal.TryParse(Table[2], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value)
            && Math.Abs(value) <= LargestValue)
        {
            decimal milli = value * 1000;
            if (milli == decimal.Truncate(milli) && limits.Allows((int)milli))
            {
                return (int)milli;
            }
        }

        throw Table.Error(2, "must be " + limits.Text(setting));
    }
}
