// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>The tables of the time line and their fields: the one list behind reader, <c>explain</c> and docs.</summary>
public static class TimeLineTables
{
    internal const string At = "at_s";
    internal const string Key = "key";
    internal const string StepTo = "step_to";
    internal const string RampTo = "ramp_to";
    internal const string Over = "over_s";
    internal const string SettleTo = "settle_to";
    internal const string TimeConstant = "time_constant_s";
    internal const string SwingBy = "swing_by";
    internal const string Period = "period_s";
    internal const string For = "for_s";
    internal const string Follow = "follow";
    internal const string Name = "name";
    internal const string Intensity = "intensity";
    internal const string Channel = "channel";
    internal const string Setting = "setting";
    internal const string Value = "value";

    private const string OfTheKey = "a value that the key may have";
    private const string OwnUnit = "that of the key";
    private const string Positive = "above 0";
    private static readonly ValueShape s_changing = ValueShape.OneOf([.. AllKeys.List().Where(ChangingKeys.MayChange).Select(k => k.Name)]);
    private static readonly string[] s_activities = [.. Activities.All.Select(a => a.Name)];
    private static readonly TableField s_at = new(At, "s", "When it begins, from the start of the scenario.", "0 up to the end of the scenario", new(ValueForm.Number) { Minimum = 0 }, IsRequired: true);

    /// <summary>A change of one key.</summary>
    public static TimeLineTable Change { get; } = new(
        "change",
        "Changes one key over time, in exactly one of five ways: step_to; ramp_to with over_s; settle_to with time_constant_s; swing_by with period_s and for_s; follow.",
        [
            s_at,
            new(Key, "", "The key that changes, section and name, for example heart.rate_bpm.", "a key that may change over time", s_changing, IsRequired: true),
            new(StepTo, OwnUnit, "New value from that moment on; the only way for keys that hold a word.", OfTheKey, new(ValueForm.NumberOrText)),
            new(RampTo, OwnUnit, "New value that is reached in a straight line.", OfTheKey, ValueShape.Number),
            new(Over, "s", "How long the ramp takes.", Positive, ValueShape.Positive),
            new(SettleTo, OwnUnit, "New value that is approached exponentially.", OfTheKey, ValueShape.Number),
            new(TimeConstant, "s", "After this time 63 % of the way to settle_to is done, after three times 95 %.", Positive, ValueShape.Positive),
            new(SwingBy, OwnUnit, "Half of the peak-to-peak size of a sine on top of the value.", "what keeps the value within the key's range", ValueShape.Number),
            new(Period, "s", "Period of the sine, which begins at its middle and rises first when swing_by is positive.", Positive, ValueShape.Positive),
            new(For, "s", "How long the sine lasts.", Positive, ValueShape.Positive),
            new(Follow, OwnUnit, "Points [time in s from at_s on, value], joined by straight lines; the last value stays.", "[[0, 70], [30, 120]] and the like, times rising", new(ValueForm.Pairs) { LeastItems = 1 }),
        ])
    {
        Ways = [[StepTo], [RampTo, Over], [SettleTo, TimeConstant], [SwingBy, Period, For], [Follow]],
    };

    /// <summary>An activity.</summary>
    public static TimeLineTable Activity { get; } = new(
        "activity",
        "Lets the person do something: heart rate, its variability, breathing, pressure, movement and posture change together, with the time constants of the body.",
        [
            s_at,
            new(Name, "", "What the person does.", string.Join(", ", s_activities), ValueShape.OneOf(s_activities), IsRequired: true),
            new(For, "s", "How long; sitting follows. Without it: until the next activity.", Positive, ValueShape.Positive),
            new(Intensity, "", "How hard, for walking and running: 0 easy, 1 as hard as it goes.", "0 to 1; 0.5 unless given", new(ValueForm.Number) { Minimum = 0, Maximum = 1 }),
        ]);

    /// <summary>A change of a setting of the sensor.</summary>
    public static TimeLineTable OfSetting { get; } = new(
        "setting",
        "Changes a setting of the sensor while it runs, from the first sample of the channel at or after that time on; times are those of the device.",
        [
            s_at,
            new(Channel, "", "The channel, or a list of channels.", string.Join(", ", ChannelNames.All), new(ValueForm.TextOrTexts) { Choices = ChannelNames.All, LeastItems = 1 }, IsRequired: true),
            new(Setting, "", "Which setting; decimation gives every n-th sample of the channel, 0 switches it off.", string.Join(", ", SensorSettings.All), ValueShape.OneOf(SensorSettings.All), IsRequired: true),
            new(Value, "that of the setting", "New value from that moment on.", "at most three decimals: 0 to 250 mA, 5 µs up to the slot spacing, gain 0.01 to 1000, decimation 0 to 1000", new(ValueForm.Number) { Minimum = 0 }, IsRequired: true),
        ]);

    /// <summary>Every table of the time line.</summary>
    public static IReadOnlyList<TimeLineTable> All { get; } = [Change, Activity, OfSetting];

    /// <summary>A table by its name, or null.</summary>
    /// <param name="name">Name without brackets.</param>
    public static TimeLineTable? Find(string name) => All.FirstOrDefault(t => t.Name == name);
}
