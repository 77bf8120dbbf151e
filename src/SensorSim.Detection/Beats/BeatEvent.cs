// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Beats;

/// <summary>One heart beat found in the ECG.</summary>
/// <param name="RPeak">Where the R peak lies, in samples of the ECG channel.</param>
/// <param name="AmplitudeCodes">Deviation of the R peak from the level before the QRS complex, with its sign [codes].</param>
/// <param name="Quality">Trust, 0 to 255: 64 when found by looking back, else by the height above the threshold.</param>
/// <param name="StartsRun">Whether no beat came before it without a gap between; then there is no RR interval to it.</param>
/// <param name="FoundAt">Index of the sample whose arrival led to the decision.</param>
/// <param name="IsWide">Whether the complex is wider than a normally conducted one.</param>
/// <param name="IsPaced">Whether a pacing spike came right before it.</param>
public readonly record struct BeatEvent(
    SamplePosition RPeak, int AmplitudeCodes, byte Quality, bool StartsRun, long FoundAt, bool IsWide = false, bool IsPaced = false);
