// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What fixed point cost the looking at shapes: each at the same places of the same codes, each with a template of its own.</summary>
/// <param name="Likeness">Likeness [1/256].</param>
/// <param name="SizePercent">Size where it is more than a tenth of the template's [% of it].</param>
/// <param name="SpreadMs">Root of the spread of beats [ms].</param>
/// <param name="Places">Searches for the place of the best fit.</param>
/// <param name="OtherPlaces">Those of them with another answer.</param>
internal readonly record struct ShapeCosts(StageCost Likeness, StageCost SizePercent, StageCost SpreadMs, int Places, int OtherPlaces)
{
    private const double DurationS = 120;

    /// <summary>Looks at every beat, at its T wave, and at any place after it, of an ECG of 12 dB with ectopic beats.</summary>
    public static ShapeCosts Of(int rateHz, double microvoltsPerCode)
    {
        var ecg = new SyntheticEcg { RateHz = rateHz, MicrovoltsPerCode = microvoltsPerCode, NoiseMillivolts = 0.107, EctopicShare = 0.1 };
        int[] codes = ecg.Make(DurationS, 5001);
        BeatWindows w = BeatWindows.ForRate(rateHz);
        double[] working = EcgFrontTwin.Working([.. codes.Select(c => (double)c)], w.Decimation, default);
        var walk = new Walk(working, w);
        var random = new Random(7);
        double workingHz = (double)rateHz / w.Decimation;
        foreach (double peak in ecg.PeaksS.Where(t => t < DurationS - 1.5))
        {
            walk.Beat((int)Math.Round(peak * workingHz));
            walk.Compare((int)((peak + 0.28) * workingHz));
            walk.Compare((int)((peak + (0.5 * random.NextDouble())) * workingHz));
        }

        return walk.Costs(1000 * w.ShapeStep / workingHz);
    }

    /// <summary>The two templates and what they said so far.</summary>
    private sealed class Walk(double[] working, BeatWindows w)
    {
        private readonly BeatShapeTwin _shape = new(working, w);
        private readonly BeatTemplateTwin _twin = new();
        private readonly List<(double Fixed, double Twin)> _fits = [];
        private readonly List<(double Fixed, double Twin)> _sizes = [];
        private readonly List<(double Fixed, double Twin)> _spreads = [];
        private BeatTemplate _fixed;
        private int _places;
        private int _others;

        public void Beat(int at)
        {
            Word256 held = Held(at);
            int scale = BeatShape.Read(w, held, at & 255, out Slopes16 slopes);
            (double[] exact, int exactScale) = _shape.Read(at);
            _spreads.Add((BeatTemplate.SpreadOf(slopes), BeatTemplateTwin.SpreadOf(exact)));
            if (_twin.Count == 0)
            {
                _fixed.Begin(slopes, scale);
                _twin.Begin(exact, exactScale);
                return;
            }

            Compare(at);
            if (_twin.Fit(exact) > 154)
            {
                _fixed.Add(slopes, _fixed.SizeOf(_fixed.Dot(slopes), scale));
                _twin.Add(exact, _twin.SizeOf(exact, exactScale));
            }
        }

        public void Compare(int at)
        {
            Word256 held = Held(at);
            int scale = BeatShape.Read(w, held, at & 255, out Slopes16 slopes);
            (double[] exact, int exactScale) = _shape.Read(at);
            int dot = _fixed.Dot(slopes);
            _fits.Add((_fixed.Fit(dot, FixedPoint.IntegerRoot.Floor((uint)BeatTemplate.Energy(slopes))), _twin.Fit(exact)));
            double size = _twin.SizeOf(exact, exactScale);
            if (size > _twin.Size / 10)
            {
                _sizes.Add((100.0 * _fixed.SizeOf(dot, scale) / _twin.Size, 100 * size / _twin.Size));
            }

            BeatShape survey = default;
            survey.Survey(w, held, at & 255);
            int fit = survey.Find(w, _fixed);
            (int bestAt, double bestFit) = _shape.Find(at, _twin);
            _places++;
            _others += survey.At != bestAt && bestFit > 0 && fit > 0 ? 1 : 0;
        }

        public ShapeCosts Costs(double stepMs)
        {
            static StageCost Cost(List<(double Fixed, double Twin)> pairs) => StageCost.Of([.. pairs.Select(p => p.Fixed)], [.. pairs.Select(p => p.Twin)]);
            double InMs(double spread) => Math.Sqrt(spread / 16) * stepMs;
            return new ShapeCosts(Cost(_fits), Cost(_sizes), Cost([.. _spreads.Select(s => (InMs(s.Fixed), InMs(s.Twin)))]), _places, _others);
        }

        private Word256 Held(int at)
        {
            Word256 held = default;
            for (int i = at - 128; i < at + 128; i++)
            {
                held[i & 255] = (int)working[Math.Clamp(i, 0, working.Length - 1)];
            }

            return held;
        }
    }
}
