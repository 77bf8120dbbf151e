// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pressure;
using SensorSim.Detection.Readings;
using SensorSim.Links.Frames;

namespace SensorSim.Tests.Boards;

/// <summary>From the items of <c>setup</c> to what the library is told, as a board does it.</summary>
internal sealed class OptionItems
{
    private readonly Dictionary<(ushort Item, ushort Index), long> _values = [];

    /// <summary>Takes an item.</summary>
    public void Add(SetupItem item) => _values[(item.Item, item.Index)] = item.Value;

    /// <summary>What the library is told.</summary>
    public LibraryOptions Options()
    {
        LibraryOptions o = LibraryOptions.Default;
        o.StartS = Of(SetupItems.StartS, o.StartS);
        o.Tuning.BeatRefractoryMs = (short)Of(SetupItems.BeatRefractoryMs, o.Tuning.BeatRefractoryMs);
        o.Tuning.BeatTWaveMs = (short)Of(SetupItems.BeatTWaveMs, o.Tuning.BeatTWaveMs);
        o.Tuning.BeatThresholdPercent = (short)Of(SetupItems.BeatThresholdPercent, o.Tuning.BeatThresholdPercent);
        o.Tuning.PulseRefractoryMs = (short)Of(SetupItems.PulseRefractoryMs, o.Tuning.PulseRefractoryMs);
        o.Tuning.PulseThresholdPercent = (short)Of(SetupItems.PulseThresholdPercent, o.Tuning.PulseThresholdPercent);
        o.Tuning.GateShutMs = (short)Of(SetupItems.GateShutMs, o.Tuning.GateShutMs);
        o.Tuning.EcgFaultsToOpen = (byte)Of(SetupItems.EcgFaultsToOpen, o.Tuning.EcgFaultsToOpen);
        o.Tuning.LightFaultsToOpen = (byte)Of(SetupItems.LightFaultsToOpen, o.Tuning.LightFaultsToOpen);
        o.Tuning.Doubt = (byte)Of(SetupItems.Doubt, o.Tuning.Doubt);
        if (_values.TryGetValue((SetupItems.OxygenPairs, 0), out long pairs))
        {
            o.Oxygen = default;
            for (ushort i = 0; i < pairs; i++)
            {
                Assert.That(o.Oxygen.Add((int)_values[(SetupItems.OxygenRatio, i)], (int)_values[(SetupItems.OxygenMilliPercent, i)]), Is.True);
            }
        }

        o.Pressure = Pressure();
        o.Trend = Trend(o.Trend);
        return o;
    }

    private PressureCalibration Pressure() => new()
    {
        Points = (int)Of(SetupItems.PressurePoints, 0),
        Model = (PressureModel)Of(SetupItems.PressureModel, 0),
        SlopeMilliMmHgPerMs = (int)Of(SetupItems.PressureSlopeMilli, 0),
        ZetaMicroPerMmHg = (int)Of(SetupItems.PressureZetaMicro, 0),
        DiastolicSharePermille = (int)Of(SetupItems.PressureDiastolicSharePermille, 0),
        SystolicPerBpmMilli = (int)Of(SetupItems.PressureSystolicPerBpmMilli, 0),
        DiastolicPerBpmMilli = (int)Of(SetupItems.PressureDiastolicPerBpmMilli, 0),
        LongestAgeDays = (int)Of(SetupItems.PressureLongestAgeDays, 0),
        ReachMilliMmHg = (int)Of(SetupItems.PressureReachMilli, 0),
        First = Cuff(0),
        Second = Cuff(1),
    };

    private CuffPoint Cuff(ushort index) => new(
        (int)Of(SetupItems.CuffSystolicMilli, 0, index),
        (int)Of(SetupItems.CuffDiastolicMilli, 0, index),
        (int)Of(SetupItems.CuffArrivalUs, 0, index),
        (int)Of(SetupItems.CuffSpreadUs, 0, index),
        (int)Of(SetupItems.CuffRateMilli, 0, index),
        Of(SetupItems.CuffTimeS, 0, index));

    private TrendSettings Trend(TrendSettings usual) => new()
    {
        Allowance256 = (short)Of(SetupItems.TrendAllowance256, usual.Allowance256),
        Threshold256 = (short)Of(SetupItems.TrendThreshold256, usual.Threshold256),
        LearningDays = (byte)Of(SetupItems.TrendLearningDays, usual.LearningDays),
        FirstSd16 = (short)Of(SetupItems.TrendFirstSd16, usual.FirstSd16),
        FirstSdDays = (byte)Of(SetupItems.TrendFirstSdDays, usual.FirstSdDays),
        LeastQuality = (byte)Of(SetupItems.TrendLeastQuality, usual.LeastQuality),
        PerBpmMilli = (short)Of(SetupItems.TrendPerBpmMilli, usual.PerBpmMilli),
        RestMarginBpm = (byte)Of(SetupItems.TrendRestMarginBpm, usual.RestMarginBpm),
    };

    private long Of(ushort item, long usual, ushort index = 0) => _values.GetValueOrDefault((item, index), usual);
}
