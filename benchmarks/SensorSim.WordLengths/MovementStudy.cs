// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Movement;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>How the canceller came out with one word length: means over four ways from movement to light.</summary>
internal sealed record CancellerRow(int Bits, double AttenuationDb, double ErrorCodes);

/// <summary>How the heart rate by spectrum came out with one word length.</summary>
/// <param name="Bits">Bits.</param>
/// <param name="ErrorBpm">Mean absolute error of the rates shown, coherence 0.9 [bpm].</param>
/// <param name="GivenPercent">Windows in which a rate is shown.</param>
/// <param name="HalfErrorBpm">The same, coherence 0.5.</param>
/// <param name="HalfGivenPercent">The same, coherence 0.5.</param>
internal sealed record SpectrumRow(int Bits, double ErrorBpm, double GivenPercent, double HalfErrorBpm, double HalfGivenPercent);

/// <summary>One word length of canceller and spectrum after the other, everything else doubles.</summary>
internal static class MovementStudy
{
    private const int LightHz = 100;
    private const int FirstSeed = 5020;
    private const int Records = 4;

    private static readonly string[] s_ways = ["pole 1 Hz", "pole 2 Hz", "pole 5 Hz", "delay 60 ms"];

    private static readonly Lazy<Record[]> s_good = new(() => Make(0.33));

    private static readonly Lazy<Record[]> s_half = new(() => Make(1));

    /// <summary>Bits of the reference's functions, which span ±64 g.</summary>
    public static CancellerRow Functions(int bits) => Canceller(bits, CancellerRun.Words(bits), default);

    /// <summary>Bits of the weights, which span ±1024 codes for 1/16384 g.</summary>
    public static CancellerRow Weights(int bits) => Canceller(bits, default, CancellerRun.Words(bits));

    /// <summary>Bits of the samples held.</summary>
    public static SpectrumRow Samples(int bits) => Spectrum(bits, new SpectrumWords { SampleBits = bits });

    /// <summary>Bits of window, sines and cosines.</summary>
    public static SpectrumRow Sines(int bits) => Spectrum(bits, new SpectrumWords { SineBits = bits });

    /// <summary>Bits of the transform's words.</summary>
    public static SpectrumRow Sums(int bits) => Spectrum(bits, new SpectrumWords { SumBits = bits });

    /// <summary>Bits of the powers.</summary>
    public static SpectrumRow Powers(int bits) => Spectrum(bits, new SpectrumWords { PowerBits = bits });

    private static CancellerRow Canceller(int bits, TwinWords functions, TwinWords weights)
    {
        CancellerRun[] runs = [.. s_ways.Select(way => CancellerRun.Of(way, functions, weights))];
        return new CancellerRow(bits, runs.Average(r => r.AttenuationDb), Math.Sqrt(runs.Average(r => r.ErrorCodes * r.ErrorCodes)));
    }

    private static SpectrumRow Spectrum(int bits, SpectrumWords words)
    {
        (double error, double given) = Score(s_good.Value, words);
        (double halfError, double halfGiven) = Score(s_half.Value, words);
        return new SpectrumRow(bits, error, given, halfError, halfGiven);
    }

    private static (double ErrorBpm, double GivenPercent) Score(Record[] records, SpectrumWords words)
    {
        var errors = new List<double>();
        int all = 0;
        foreach (Record record in records)
        {
            foreach (SpectrumWindow window in PulseSpectrumTwin.Run(record.Light, record.Artefact, LightHz, words).Where(w => w.Sample > 20 * LightHz))
            {
                all++;
                if (window.IsTrusted)
                {
                    errors.Add(Math.Abs(window.Bpm - record.BpmAt(((window.Sample + 1.0) / LightHz) - 4)));
                }
            }
        }

        return (errors.Count == 0 ? double.NaN : errors.Average(), 100.0 * errors.Count / all);
    }

    private static Record[] Make(double unexplained) =>
    [
        .. Enumerable.Range(FirstSeed, Records).Select(seed =>
        {
            (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(unexplained, 240, seed);
            (int[] left, int[] taken) = SpectrumCosts.Cancelled(light, codes, LightHz, 50);
            return new Record([.. left.Select(v => (double)v)], [.. taken.Select(v => (double)v)], bpmAt);
        }),
    ];

    private sealed record Record(double[] Light, double[] Artefact, Func<double, double> BpmAt);
}
