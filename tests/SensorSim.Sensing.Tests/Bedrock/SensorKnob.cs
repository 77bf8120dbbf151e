// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>A knob of the sensor and what a change of it may touch.</summary>
/// <param name="Name">Name of the knob.</param>
/// <param name="To">The value it is changed to; <c>*</c>: to the choice that does not hold.</param>
/// <param name="Channels">The channels that it reaches; <c>light</c> and <c>axes</c> stand for all of their kind.</param>
/// <param name="Why">Why what it adds depends on the rest; empty where it adds the same whatever else is on.</param>
/// <param name="With">What must be set for it to show.</param>
/// <param name="Spill">Channels that it reaches on top when everything is on: through crosstalk between slots, level control or a sensor that is turned.</param>
internal sealed record SensorKnob(string Name, string To, string Channels, string Why = "", string With = "", string Spill = "")
{
    // Two short recordings of noise that mean nothing.
    private static readonly double[] s_tape = [.. Enumerable.Range(0, 700).Select(i => Math.Sin(i * 0.37) + ((i % 13) * 0.1))];
    private static readonly double[] s_other = [.. Enumerable.Range(0, 500).Select(i => Math.Cos(i * 0.53))];
    private static readonly (TextKey File, TextKey Label, NumberKey Rate)[] s_recordings =
    [
        (EcgNoiseKeys.RecordingFile, EcgNoiseKeys.RecordingLabel, EcgNoiseKeys.RecordingRateHz),
        (RecordedLightKeys.File, RecordedLightKeys.Label, RecordedLightKeys.RateHz),
    ];

    public bool Adds => Why.Length == 0;

    public KeyDefinition Key => KeyOf(Name);

    public bool Reaches(ChannelName channel, bool isAllOn) => Reaches(Channels, channel) || (isAllOn && Reaches(Spill, channel));

    /// <summary>Values with what the knob needs to show.</summary>
    public KeyValues Ready(KeyValues values)
    {
        KeyValues ready = values.Copy();
        foreach (string[] pair in With.Split(';', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Split('=')))
        {
            Set(ready, KeyOf(pair[0]), pair[1]);
        }

        return ready;
    }

    /// <summary>Values with the knob changed.</summary>
    public KeyValues Changed(KeyValues ready) => Set(ready.Copy(), Key, To);

    /// <summary>Attaches the recordings that values name, at their rates.</summary>
    public static KeyValues WithRecordings(KeyValues values)
    {
        foreach ((TextKey file, TextKey label, NumberKey rate) in s_recordings.Where(r => values.IsSet(r.File)))
        {
            values.Attach(file, new NoiseRecording(values[file] == "other" || (values.IsSet(label) && values[label] == "other") ? s_other : s_tape, values[rate]));
        }

        return values;
    }

    private static bool Reaches(string channels, ChannelName channel) => channels.Split(' ', StringSplitOptions.RemoveEmptyEntries).Any(word => word switch
    {
        "light" => channel is ChannelName.Red or ChannelName.Infrared or ChannelName.Green or ChannelName.Dark,
        "axes" => channel is ChannelName.AccelX or ChannelName.AccelY or ChannelName.AccelZ,
        _ => word == channel.Text(),
    });

    private static KeyDefinition KeyOf(string name) => SensingKeys.All.Single(k => k.Name == name);

    private static KeyValues Set(KeyValues values, KeyDefinition key, string text)
    {
        switch (key)
        {
            case NumberKey number:
                values.Set(number, double.Parse(text, CultureInfo.InvariantCulture));
                break;
            case ChoiceKey choice:
                values.Set(choice, text == "*" ? choice.Choices.First(c => c != values[choice]) : text);
                break;
            case TextKey file:
                values.Set(file, text);
                break;
        }

        return WithRecordings(values);
    }
}
