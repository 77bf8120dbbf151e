// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Each stage and its twin on the same whole codes.</summary>
internal static class StageCosts
{
    private const double DurationS = 60;

    public static StageCost BandPass(int rateHz, double microvoltsPerCode)
    {
        (int[] fixedPoint, double[] twin, _) = EcgFront(rateHz, microvoltsPerCode);
        return StageCost.Of([.. fixedPoint.Select(v => (double)v)], twin);
    }

    public static StageCost Energy(int rateHz, double microvoltsPerCode)
    {
        (int[] passed, double[] twin, BeatWindows w) = EcgFront(rateHz, microvoltsPerCode);
        var stage = new QrsEnergy();
        stage.Restart(w);
        return StageCost.Of([.. passed.Select(v => (double)stage.Next(v))], EcgFrontTwin.Energy(twin, w, default));
    }

    public static StageCost WatchSlope(int rateHz, double amplitudeCodes)
    {
        (double[] x, PulseWindows w) = Filling(rateHz, amplitudeCodes);
        var stage = new WatchSlope();
        stage.Restart(w.WatchArm, (int)x[0]);
        int leaves = (2 * w.WatchArm) + 1;
        double[] slopes = [.. x.Select((v, i) => (double)stage.Next((int)v, (int)x[Math.Max(0, i - leaves)]))];
        return StageCost.Of(slopes, PulseTwin.Slopes(x, w, default));
    }

    /// <summary>The cubic's slope everywhere on the pulse, with the shift that its differences would get there; in steps of 2^(shift − 14) per working sample.</summary>
    public static StageCost CubicSlope(int rateHz, double amplitudeCodes) =>
        Cubic(rateHz, amplitudeCodes, (in CubicFit fit, in Word256 held, int at, int shift) => fit.Slope(held, at, shift), (twin, x, i) => twin.Slope(x, i));

    /// <summary>The cubic's level over that of the foot, likewise.</summary>
    public static StageCost CubicLevel(int rateHz, double amplitudeCodes)
    {
        // The level of the light, as the pulse rises from it.
        int level = -300_000 * PulseWindows.ForRate(rateHz).Decimation;
        return Cubic(
            rateHz,
            amplitudeCodes,
            (in CubicFit fit, in Word256 held, int at, int shift) => fit.Level(held, at, level, shift),
            (twin, x, i) => twin.Level(x, i) - level);
    }

    private delegate int FixedFit(in CubicFit fit, in Word256 held, int at, int shift);

    private static StageCost Cubic(int rateHz, double amplitudeCodes, FixedFit stage, Func<CubicFitTwin, double[], int, double> twin)
    {
        (double[] x, PulseWindows w) = Filling(rateHz, amplitudeCodes);
        var fit = new CubicFit();
        fit.Restart(w.FitArm);
        var reference = new CubicFitTwin(w.FitArm);
        int shift = Shift.Needed((int)(2 * amplitudeCodes * w.Decimation), CubicFit.InputBits - 1);
        double scale = Math.ScaleB(1, CubicFit.WeightBits - shift);
        Word256 held = default;
        var fixedPoint = new List<double>();
        var exact = new List<double>();
        for (int i = 0; i < x.Length; i++)
        {
            held[i & (Word256.Length - 1)] = (int)x[i];
            if (i > 2 * w.FitArm)
            {
                fixedPoint.Add(stage(fit, held, i - w.FitArm, shift));
                exact.Add(twin(reference, x, i - w.FitArm) * scale);
            }
        }

        return StageCost.Of([.. fixedPoint], [.. exact]);
    }

    private static (int[] Passed, double[] Twin, BeatWindows Windows) EcgFront(int rateHz, double microvoltsPerCode)
    {
        // 12 dB of white noise, so that the rest that a shift drops is anything.
        int[] codes = new SyntheticEcg { RateHz = rateHz, MicrovoltsPerCode = microvoltsPerCode, NoiseMillivolts = 0.107 }.Make(DurationS, 5001);
        BeatWindows w = BeatWindows.ForRate(rateHz);
        double[] working = EcgFrontTwin.Working([.. codes.Select(c => (double)c)], w.Decimation, default);
        var stage = new BandPass();
        stage.Restart(w, (int)working[0]);
        int[] passed = [.. working.Select(v => stage.Next((int)v))];
        return (passed, EcgFrontTwin.BandPass(working, w, default), w);
    }

    private static (double[] X, PulseWindows Windows) Filling(int rateHz, double amplitudeCodes)
    {
        int[] codes = new SyntheticPulse { RateHz = rateHz, AmplitudeCodes = amplitudeCodes, SnrDb = 36, BeatS = 0.94 }.Make(DurationS, 5001);
        PulseWindows w = PulseWindows.ForRate(rateHz);
        return (EcgFrontTwin.Working([.. codes.Select(c => -(double)c)], w.Decimation, default), w);
    }
}
