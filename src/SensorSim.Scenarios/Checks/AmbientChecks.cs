// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses light that would be less than none, and an artefact that no axis drives.</summary>
internal static class AmbientChecks
{
    private const int Places = 720;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckFlicker(values, report);
        CheckShares(values, report);
    }

    // The depth of the dip is convex in both harmonics, so over their ranges it is deepest at a corner.
    private static void CheckFlicker(KeyValues values, Action<KeyDefinition, string> report)
    {
        double flicker = values.Course(AmbientKeys.FlickerPercent).Highest;
        Course second = values.Course(AmbientKeys.FlickerSecondPercent);
        Course third = values.Course(AmbientKeys.FlickerThirdPercent);
        if (second.Highest == 0 && third.Highest == 0)
        {
            return;
        }

        double deepest = 0;
        foreach (double two in (double[])[second.Lowest, second.Highest])
        {
            foreach (double three in (double[])[third.Lowest, third.Highest])
            {
                deepest = Math.Max(deepest, Dip(two * 0.01, three * 0.01));
            }
        }

        double most = Math.Floor(1000 / deepest) / 10;
        if (flicker > most)
        {
            report(
                AmbientKeys.FlickerPercent,
                $"ambient.flicker_percent = {Text(flicker)} with harmonics of {Text(second.Highest)} and {Text(third.Highest)} % would make light below zero; at most {Text(most)} %");
        }
    }

    // How far sin x + a sin 2x + b sin 3x goes below zero.
    private static double Dip(double a, double b)
    {
        double dip = 0;
        for (int i = 0; i < Places; i++)
        {
            PortableMath.SinCosTurns(i / (double)Places, out double one, out _);
            PortableMath.SinCosTurns(2 * i / (double)Places, out double two, out _);
            PortableMath.SinCosTurns(3 * i / (double)Places, out double three, out _);
            dip = Math.Max(dip, -(one + (a * two) + (b * three)));
        }

        return dip;
    }

    private static void CheckShares(KeyValues values, Action<KeyDefinition, string> report)
    {
        bool hasShare = values[TissueArtefactKeys.ForwardPercent] != 0 || values[TissueArtefactKeys.SidewaysPercent] != 0
            || values[TissueArtefactKeys.UpwardPercent] != 0;
        if (!hasShare && values.Course(OpticsKeys.MovementArtefactRatio).Highest > 0)
        {
            report(
                TissueArtefactKeys.UpwardPercent,
                "optics.artefact_forward_percent, _sideways_percent and _upward_percent are all 0, so nothing drives the movement artefact; set one of them");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
