// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Rhythm;

/// <summary>No beats and no P waves: asystole, and ventricular fibrillation, whose waves are no beats.</summary>
internal sealed class SilentSource : RhythmSource
{
    private const double StepSeconds = 0.5;

    public override bool KeepsSinus => false;

    public override void Begin(RhythmState state, double seconds) => state.HorizonSeconds = Math.Max(state.HorizonSeconds, seconds);

    public override void Step(RhythmState state) => state.HorizonSeconds += StepSeconds;
}
