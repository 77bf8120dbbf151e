// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;
using SensorSim.Detection.Movement;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Tests.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What the gates are decided on, and its twins on the same codes, beats and pulses.</summary>
internal static class GateCosts
{
    /// <summary>Level of movement [mg] from four seconds on, eight times a second.</summary>
    /// <param name="size">Size of the gait, of one whose steps are half a g.</param>
    /// <param name="rateHz">Rate of the accelerometer [Hz].</param>
    /// <param name="codesPerG">Codes for 1 g.</param>
    public static (StageCost Level, double OtherMovingPercent) Movement(double size, int rateHz, int codesPerG)
    {
        var stage = new MovementLevel();
        stage.Start(rateHz, codesPerG);
        var twin = new MovementLevelTwin(rateHz, codesPerG, MovementReference.LevelShift(rateHz));
        NoProbe probe = default;
        var fixedPoint = new List<double>();
        var exact = new List<double>();
        int other = 0;
        bool isMoving = false;
        int every = (rateHz + 7) / 8;
        double[][] gait = new Gait { UpG = 0.5 * size, SwingG = 0.3 * size }.Make(120, rateHz);
        for (int i = 0; i < gait.Length; i++)
        {
            int[] codes = Gait.Codes(gait[i], codesPerG);
            stage.Next(codes[0], codes[1], codes[2], ref probe);
            twin.Next(codes);
            if ((i + 1) % every != 0)
            {
                continue;
            }

            isMoving = twin.LevelMg > (isMoving ? MovementLevel.MovesDownToMg : MovementLevel.MovesAboveMg);
            if (i < 4 * rateHz)
            {
                continue;
            }

            fixedPoint.Add(stage.LevelMg);
            exact.Add(twin.LevelMg);
            other += stage.IsMoving == isMoving ? 0 : 1;
        }

        return (StageCost.Of([.. fixedPoint], [.. exact]), 100.0 * other / exact.Count);
    }

    /// <summary>Noise of the watched slope [its steps], twice a second, and how much of the twin's it reads in the mean.</summary>
    public static (StageCost Level, double Ratio) Noise(int rateHz, double amplitudeCodes)
    {
        PulseWindows w = PulseWindows.ForRate(rateHz);
        int[] codes = new SyntheticPulse { RateHz = rateHz, AmplitudeCodes = amplitudeCodes, SnrDb = 36, BeatS = 0.94 }.Make(120, 5001);
        double[] x = EcgFrontTwin.Working([.. codes.Select(c => -(double)c)], w.Decimation, default);
        var stage = new PulseNoise();
        stage.Start(w);
        var twin = new PulseNoiseTwin(w);
        Word256 held = default;
        var fixedPoint = new List<double>();
        var exact = new List<double>();
        for (int i = 0; i < x.Length; i++)
        {
            held[i & (Word256.Length - 1)] = (int)x[i];
            if (i < 2 * w.LearningBlock || i % w.LearningBlock != 0)
            {
                continue;
            }

            stage.Estimate(held, i & (Word256.Length - 1), w);
            twin.Estimate(x, i);

            // The first one has four of eight blocks.
            if (i > 2 * w.LearningBlock)
            {
                fixedPoint.Add(stage.Level);
                exact.Add(twin.Level);
            }
        }

        return (StageCost.Of([.. fixedPoint], [.. exact]), fixedPoint.Average() / exact.Average());
    }

    /// <summary>What stands out in a rhythm with beats that scatter by a tenth, one of ten early and every fourth of those upside down.</summary>
    /// <param name="ticksPerSecond">The common clock.</param>
    /// <param name="heightCodes">Typical height.</param>
    public static EvidenceCosts Evidence(long ticksPerSecond, int heightCodes)
    {
        var random = new Random(5001);
        var time = new GateTime();
        time.Start(new CommonClock(ticksPerSecond));
        var stage = new Evidence();
        var twin = new EvidenceTwin();
        var fixedPoint = new List<double>();
        var exact = new List<double>();
        int otherIntervals = 0;
        int otherHeights = 0;
        double widestInterval = 0;
        double widestHeight = 0;
        const int Beats = 5000;
        double at = 0;
        for (int i = 0; i < Beats; i++)
        {
            bool isEarly = random.Next(10) == 0;
            at += 0.8 * (1 + (0.1 * SyntheticEcg.Normal(random))) * (isEarly ? 0.7 : 1);
            long ticks256 = (long)(at * ticksPerSecond * 256);
            double magnitude = heightCodes * Math.Exp((isEarly ? 0.3 : 0.15) * SyntheticEcg.Normal(random));
            int height = (int)Math.Round(magnitude) * (isEarly && random.Next(4) == 0 ? -1 : 1);
            stage.Add(time, ticks256, height, startsRun: false);
            twin.Add(ticks256 / (256.0 * ticksPerSecond), height);
            if (double.IsFinite(twin.HeightOff))
            {
                fixedPoint.Add(stage.HeightOff);
                exact.Add(64 * twin.HeightOff);
            }

            if (stage.HeightFaults != twin.HeightFaults)
            {
                otherHeights++;
                widestHeight = Math.Max(widestHeight, 64 * twin.HeightMargin);
            }

            if (stage.IntervalFaults != twin.IntervalFaults)
            {
                otherIntervals++;
                widestInterval = Math.Max(widestInterval, twin.IntervalMargin);
            }
        }

        return new EvidenceCosts(
            StageCost.Of([.. fixedPoint], [.. exact]), 100.0 * otherHeights / Beats, widestHeight, 100.0 * otherIntervals / Beats, widestInterval);
    }
}
