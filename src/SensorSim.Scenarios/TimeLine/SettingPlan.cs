// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>The changes of settings of a scenario, in order of time.</summary>
internal sealed class SettingPlan
{
    private readonly List<PlannedSetting> _settings = [];

    /// <summary>The rows, in order of time; of the same time in the order of the file.</summary>
    public IReadOnlyList<SettingChange> Changes =>
    [
        .. _settings.Select(s => new SettingChange(s.Channel, s.Setting, (int)Math.Round(s.Value * 1000), (long)Math.Round(s.AtSeconds * 1e9)))
            .OrderBy(s => s.EffectiveNs),
    ];

    /// <summary>Adds the changes of one table.</summary>
    public void Add(IReadOnlyList<PlannedSetting> settings) => _settings.AddRange(settings);

    /// <summary>Refuses what the sensor of a scenario does not have or cannot do.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public void Check(KeyValues values, MistakeList mistakes)
    {
        CheckCrowd(mistakes);
        foreach (PlannedSetting s in _settings)
        {
            if (s.Channel == ChannelName.Green && !OpticalSlots.HasGreen(values))
            {
                mistakes.Add(s.ChannelPlace, "this scenario has no green light; set optics.green_na, or leave out the channel green");
                continue;
            }

            SettingLimits limits = SettingRanges.Of(values, s.Channel, s.Setting);
            double milli = Math.Round(s.Value * 1000);
            if (!(Math.Abs(milli) < int.MaxValue && Math.Abs(milli - (s.Value * 1000)) < 1e-6 && limits.Allows((int)milli)))
            {
                string value = s.Value.ToString("R", CultureInfo.InvariantCulture);
                mistakes.Add(s.ValuePlace, $"{s.Setting.Text()} of {s.Channel.Text()} = {value} must be {limits.Text(s.Setting)}");
            }
        }
    }

    // What changes is told, and what is told must find room until it is taken.
    private void CheckCrowd(MistakeList mistakes)
    {
        PlannedSetting[] inTime = [.. _settings.OrderBy(s => s.AtSeconds)];
        for (int i = SettingsCsvReader.MostPerSecond; i < inTime.Length; i++)
        {
            if (inTime[i].AtSeconds - inTime[i - SettingsCsvReader.MostPerSecond].AtSeconds < 1)
            {
                mistakes.Add(inTime[i].ValuePlace, $"more than {SettingsCsvReader.MostPerSecond} settings change within a second; at most so many, spread the rest or leave it out");
                return;
            }
        }
    }
}
