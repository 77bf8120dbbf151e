// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>One run of a study: the indices of its point, seed, subject and detector.</summary>
/// <param name="Point">Index into <see cref="StudyPlan.Points"/>.</param>
/// <param name="Seed">Index into <see cref="StudyPlan.Seeds"/>.</param>
/// <param name="Subject">Index into <see cref="StudyPlan.SubjectSeeds"/>; 0 when nobody is drawn.</param>
/// <param name="Detector">Index into <see cref="StudyPlan.Detectors"/>.</param>
public readonly record struct RunKey(int Point, int Seed, int Subject, int Detector);
