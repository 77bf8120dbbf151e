// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of contact, level control, converters and data paths whose occasion never comes; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleSensorKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values) =>
        Light(values).Concat(Converters(values)).Concat(DataPath(values, DataPathKeys.First)).Concat(Second(values));

    private static IEnumerable<(KeyDefinition Key, string Why)> Light(KeyValues values)
    {
        string isFull = values.Course(ContactKeys.ContactPercent).IsAlways(100) && values[ContactKeys.LiftOffsPerHour] == 0
            ? $"the contact is always full; set {ContactKeys.ContactPercent.Name} or {ContactKeys.LiftOffsPerHour.Name}" : "";
        string noControl = IdleKeys.Unless(values, LevelControlKeys.LevelControl, "on");
        yield return (OpticsKeys.GreenMa, OpticalSlots.HasGreen(values) ? "" : $"{OpticsKeys.GreenNa.Name} is 0; set it");
        yield return (OpticalNoiseKeys.TemperatureC, IdleKeys.Without(values, OpticalNoiseKeys.FeedbackKohm));
        yield return (ContactKeys.LeakRatio, IdleKeys.First(isFull, IdleAmbientKeys.WithoutLight(values)));
        yield return (ContactKeys.LiftOffSeconds, IdleKeys.Without(values, ContactKeys.LiftOffsPerHour));
        yield return (LevelControlKeys.LowPercent, noControl);
        yield return (LevelControlKeys.HighPercent, noControl);
        yield return (LevelControlKeys.MostMa, noControl);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Converters(KeyValues values) =>
        new[] { ConversionKeys.Ecg, ConversionKeys.Optics, ConversionKeys.Accelerometer }
            .Select(k => ((KeyDefinition)k.StuckCodesS, IdleKeys.Without(values, k.StuckCodesPerH)));

    private static IEnumerable<(KeyDefinition Key, string Why)> DataPath(KeyValues values, DataPathKeys keys)
    {
        string noDelay = IdleKeys.Without(values, keys.PacketDelayMs);
        string noStall = IdleKeys.Without(values, keys.StallsPerMin);
        bool isPacket = values[keys.PacketLossPercent] != 0 || values[keys.PacketDelayMs] != 0 || values[keys.StampWrapS] != 0;
        yield return (keys.PacketMs, isPacket ? "" : $"no packet is lost or late; set {keys.PacketLossPercent.Name}, {keys.PacketDelayMs.Name} or {keys.StampWrapS.Name}");
        yield return (keys.LossBurstPackets, IdleKeys.Without(values, keys.PacketLossPercent));
        yield return (keys.LateMs, noDelay);
        yield return (keys.PatienceMs, noDelay);
        yield return (keys.FifoSamples, noStall);
        yield return (keys.FifoKeeps, noStall);
        yield return (keys.StallMs, noStall);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Second(KeyValues values)
    {
        string noDevice = values[DeviceKeys.SecondCarries] == "nothing" ? $"{DeviceKeys.SecondCarries.Name} is \"nothing\"; set what it carries" : "";
        return noDevice.Length == 0 ? DataPath(values, DataPathKeys.Second) : DeviceKeys.Second.All.Concat(DataPathKeys.Second.All).Select(k => (k, noDevice));
    }
}
