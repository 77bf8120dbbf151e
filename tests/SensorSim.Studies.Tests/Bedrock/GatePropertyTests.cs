// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Bedrock;

/// <summary>What holds for every mark of the complete library: shut gates are silent, say why, and readings say what they rest on.</summary>
[TestFixture]
public sealed class GatePropertyTests
{
    private static readonly MarkKind[] s_withoutWindow =
    [
        // From one beat, or from the state of a tracker.
        MarkKind.ArrivalTimeMs, MarkKind.CadencePerMin,
    ];

    [Test]
    public void Marks_EverythingOn_KeepTheRules([Range(5001, 5003)] int seed) => Check(LibraryRuns.Shipped("all-on", 600, seed), leastShuts: 4);

    // An hour of rest, walking, running, atrial fibrillation and a poor radio; lost contacts throughout.
    [Test]
    public void Marks_MixedHour_KeepTheRules() => Check(
        ScenarioReader.ReadText(
            """
            [scenario]
            duration_s = 3600
            seed = 5011
            [heart]
            rate_bpm = 70
            [pulse]
            perfusion_index_percent = 1
            [movement]
            activity = "walking"
            amplitude_g = 0
            gestures_per_min = 1
            [electrodes]
            contact_loss_per_h = 20
            contact_loss_s = 5
            pops_per_min = 1
            pop_mv_rms = 0.3
            [ecg_amplifier]
            white_noise_uv_rms = 15
            [optics]
            white_noise_snr_db = 30
            movement_artefact_ratio = 1
            [ambient]
            level_na = 100
            flicker_percent = 10
            [device]
            packet_loss_percent = 1
            stalls_per_min = 0.3
            [[change]]
            key = "movement.amplitude_g"
            at_s = 600
            step_to = 0.4
            [[change]]
            key = "movement.amplitude_g"
            at_s = 1200
            step_to = 0
            [[change]]
            key = "pulse.perfusion_index_percent"
            at_s = 1200
            step_to = 0.2
            [[change]]
            key = "pulse.perfusion_index_percent"
            at_s = 1800
            step_to = 2
            """,
            "mixed-hour.toml"),
        leastShuts: 20);

    private static void Check(Scenario scenario, int leastShuts)
    {
        (StreamFormat format, List<Mark> marks, _) = LibraryRuns.Run(scenario, 65_536);
        int ecg = format.IndexOf(ChannelName.Ecg);
        int light = format.IndexOf(ChannelName.Infrared);
        var reasons = new Dictionary<int, GateReason> { [ecg] = GateReason.Waiting, [light] = GateReason.Waiting };
        GateReason joint = GateReason.Waiting;

        // A gate is shut from the start, and the first row may say what for.
        var told = new HashSet<int>();
        bool isJointTold = false;
        int shuts = 0;
        int readings = 0;
        foreach (Mark mark in marks)
        {
            string what = FormattableString.Invariant($"{mark.Kind} of channel {mark.Channel} at tick {mark.EmittedTick}");
            switch (mark.Kind)
            {
                case MarkKind.GateOpen:
                    Assert.That(reasons[mark.Channel], Is.Not.EqualTo(GateReason.None), $"{what}: was open");
                    reasons[mark.Channel] = GateReason.None;
                    break;
                case MarkKind.GateShut:
                    // A gate that stays shut may say another reason.
                    GateReason reason = ReasonOf(mark, what);
                    Assert.That(told.Add(mark.Channel) || reasons[mark.Channel] != reason, Is.True, $"{what}: was shut for that");
                    reasons[mark.Channel] = reason;
                    shuts++;
                    break;
                case MarkKind.JointGateOpen:
                    Assert.That(joint, Is.Not.EqualTo(GateReason.None), $"{what}: was open");
                    joint = GateReason.None;
                    break;
                case MarkKind.JointGateShut:
                    Assert.That(!isJointTold || joint != ReasonOf(mark, what), Is.True, $"{what}: was shut for that");
                    isJointTold = true;
                    joint = ReasonOf(mark, what);
                    break;
                default:
                    if (IsReading(mark.Kind))
                    {
                        readings++;
                        Assert.That(IsAllowed(mark, reasons[ecg], reasons[light], joint, ecg, light), Is.True, $"{what} with {reasons[ecg]}, {reasons[light]}, {joint}");
                        Assert.That(mark.HasValue, Is.True, what);
                        Assert.That(mark.WindowSamples, Is.GreaterThan(s_withoutWindow.Contains(mark.Kind) ? -1 : 0), what);
                    }

                    break;
            }
        }

        Assert.That(shuts, Is.GreaterThanOrEqualTo(leastShuts), "there must be something to keep");
        Assert.That(readings, Is.GreaterThan(200), "there must be something to keep back");
    }

    private static GateReason ReasonOf(Mark mark, string what)
    {
        Assert.That(mark.ValueMilli % 1000, Is.Zero, what);
        Assert.That(mark.ValueMilli / 1000, Is.InRange(1, 8), what);
        return (GateReason)(mark.ValueMilli / 1000);
    }

    private static bool IsReading(MarkKind kind) => kind is MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm or MarkKind.RrMeanMs
        or MarkKind.SdnnMs or MarkKind.RmssdMs or MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.ArrivalSpreadMs
        or MarkKind.Spo2Percent or MarkKind.PerfusionIndexPercent or MarkKind.RespirationRateBpm or MarkKind.CadencePerMin;

    // Of the light the heart rate alone may be told while its gate is shut: under movement, or shortly after it, the spectrum vouches for it,
    // whatever the single pulses are like. Not when there is no light to look at.
    private static bool IsRateOfLight(GateReason light) => light
        is not (GateReason.NoContact or GateReason.Saturated or GateReason.NoSamples or GateReason.Ambient or GateReason.TooWeak);

    private static bool IsAllowed(Mark mark, GateReason ecg, GateReason light, GateReason joint, int ecgChannel, int lightChannel) => mark.Kind switch
    {
        MarkKind.CadencePerMin => true,
        MarkKind.HeartRateFusedBpm => ecg == GateReason.None || IsRateOfLight(light),
        MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.ArrivalSpreadMs =>
            joint == GateReason.None && ecg == GateReason.None && light == GateReason.None,
        MarkKind.HeartRateBpm when mark.Channel == lightChannel => IsRateOfLight(light),
        _ => (mark.Channel == ecgChannel ? ecg : light) == GateReason.None,
    };
}
