// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Dark subtraction and its twin on the same codes.</summary>
/// <param name="Smooth">Light where both take the smoothed dark off [codes]; nothing when that is never so.</param>
/// <param name="Line">Light where both take the line off [codes]; likewise.</param>
/// <param name="Ambient">The room's mean [codes].</param>
/// <param name="Swing">How much it moves [codes].</param>
/// <param name="OtherPercent">Share of samples where one takes the line and the other the smoothed dark.</param>
/// <param name="SteepestCodes">Largest change between two dark samples [codes].</param>
internal sealed record RoomCosts(StageCost? Smooth, StageCost? Line, StageCost Ambient, StageCost Swing, double OtherPercent, double SteepestCodes)
{
    private const int LightZero = 1234;
    private const int DarkZero = 567;

    public static RoomCosts Of(RoomScene scene, double durationS = 120, int seed = 5001)
    {
        var stage = new DarkSubtraction();
        if (!stage.Start(scene.LightHz, scene.DarkHz, scene.Shift256, LightZero, DarkZero))
        {
            throw new ArgumentException("rates that the stage refuses", nameof(scene));
        }

        var twin = new DarkSubtractionTwin(scene.LightHz, scene.DarkHz, scene.Shift256 / 256.0);
        NoProbe probe = default;
        var light = new List<(double Fixed, double Exact)>[] { [], [] };
        var ambient = new List<(double Fixed, double Exact)>();
        var swing = new List<(double Fixed, double Exact)>();
        int samples = 0;
        int other = 0;
        double steepest = 0;
        double last = double.NaN;
        foreach ((bool isDark, int code) in scene.Make(durationS, seed))
        {
            if (isDark)
            {
                stage.Dark(code + DarkZero);
                twin.Dark(code);
                ambient.Add((stage.AmbientCodes, twin.Ambient));
                swing.Add((stage.SwingCodes, twin.Swing));
                steepest = double.IsNaN(last) ? 0 : Math.Max(steepest, Math.Abs(code - last));
                last = code;
                continue;
            }

            (double Fixed, double Exact) pair = (stage.Next(code + LightZero, ref probe), twin.Next(code));
            samples++;
            if (stage.IsSmoothing != twin.IsSmoothing)
            {
                other++;
                continue;
            }

            light[twin.IsSmoothing ? 0 : 1].Add(pair);
        }

        return new RoomCosts(Cost(light[0]), Cost(light[1]), Cost(ambient)!.Value, Cost(swing)!.Value, 100.0 * other / samples, steepest);
    }

    private static StageCost? Cost(List<(double Fixed, double Exact)> pairs) =>
        pairs.Count < 1000 ? null : StageCost.Of([.. pairs.Select(p => p.Fixed)], [.. pairs.Select(p => p.Exact)]);
}
