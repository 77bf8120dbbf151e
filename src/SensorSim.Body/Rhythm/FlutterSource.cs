// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Atrial flutter: every second, third or fourth flutter wave is conducted, or a changing number.</summary>
internal sealed class FlutterSource : RhythmSource
{
    // From a flutter wave to the R wave that it causes (choice of this project).
    private const double ConductionSeconds = 0.15;
    private const double ShortestRrSeconds = 0.26;

    private readonly AtrialActivity _waves;
    private readonly ChoiceCourse _conduction;
    private readonly KeyedRandom _draws;

    public FlutterSource(KeyValues values, ulong seed, AtrialActivity waves)
    {
        _waves = waves;
        _conduction = values.Course(AtrialArrhythmiaKeys.FlutterConduction);
        _draws = new KeyedRandom(seed, "flutter.conduction");
    }

    public override bool KeepsSinus => false;

    public override void Begin(RhythmState state, double seconds)
    {
        double earliest = Math.Max(seconds, state.LastRSeconds + ShortestRrSeconds);
        state.Place = (long)Math.Ceiling(_waves.FlutterPhase.Turns(earliest - ConductionSeconds));
        while (Seconds(state.Place) < earliest)
        {
            state.Place++;
        }

        state.NextSeconds = Seconds(state.Place);
        state.HorizonSeconds = state.NextSeconds;
    }

    public override void Step(RhythmState state)
    {
        double now = state.NextSeconds;
        int ratio = _conduction.Value(now) switch
        {
            "2_to_1" => 2,
            "3_to_1" => 3,
            "4_to_1" => 4,
            _ => Variable(state.Place),
        };
        state.Place += ratio;
        state.NextSeconds = Seconds(state.Place);
        state.Add(HeartEvent.Beat(now, BeatClass.AtrialArrhythmia, hasP: false, state.NextSeconds - now));
        state.HorizonSeconds = state.NextSeconds;
    }

    private double Seconds(long wave) => _waves.SecondsOfFlutterWave(wave) + ConductionSeconds;

    // 2:1 and 4:1 are commoner than 3:1 (common practice); the shares are a choice of this project.
    private int Variable(long draw)
    {
        double place = _draws.Uniform(draw);
        return place < 0.45 ? 2 : place < 0.65 ? 3 : 4;
    }
}
