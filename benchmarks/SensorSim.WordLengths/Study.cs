// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>How the four records came out with one word length.</summary>
internal sealed record StudyRow(int Bits, TwinScore? EcgClean, TwinScore? EcgNoisy, TwinScore LightClean, TwinScore LightNoisy);

/// <summary>The library beside its twin on the same codes.</summary>
/// <param name="Signal">Which codes.</param>
/// <param name="Library">How the library did.</param>
/// <param name="Twin">How the twin did.</param>
/// <param name="RmsMs">Difference of the times of events that both gave [ms].</param>
internal sealed record AnswerRow(string Signal, TwinScore Library, TwinScore Twin, double RmsMs);

/// <summary>One word length after the other, everything else as long as it can be.</summary>
internal static class Study
{
    // What is not studied has this many bits in the converter, and doubles behind it.
    private const int ManyBits = 24;

    /// <summary>Bits of the converter, the fixed-point library behind it.</summary>
    public static StudyRow Converter(int bits) => new(
        bits,
        Signals.Ecg(false, bits, Library.Beats),
        Signals.Ecg(true, bits, Library.Beats),
        Signals.Light(false, bits, Library.Feet),
        Signals.Light(true, bits, Library.Feet));

    /// <summary>Bits of every word that a stage keeps or hands on.</summary>
    public static StudyRow State(int bits)
    {
        var ecg = new TwinWords { StateBits = bits, FullScale = Math.ScaleB(1, ManyBits - 1) };
        var light = new TwinWords { StateBits = bits, FullScale = Math.ScaleB(1, ManyBits) };
        return Twin(bits, ecg, light);
    }

    /// <summary>Bits of the weights of the cubic fit; the band-pass has no weights but whole ones.</summary>
    public static StudyRow Coefficients(int bits) => Twin(bits, default, new TwinWords { CoefficientBits = bits }) with { EcgClean = null, EcgNoisy = null };

    /// <summary>What fixed point costs the answers: ECG in 1 µV, pulses of 2000 codes or so, as sensors give them.</summary>
    public static IEnumerable<AnswerRow> Answers()
    {
        const int EcgBits = 14;
        const int LightBits = 18;
        foreach (bool isNoisy in new[] { false, true })
        {
            yield return Answer($"ECG {(isNoisy ? "12 dB" : "clean")}, {EcgBits} bits", detect => Signals.Ecg(isNoisy, EcgBits, detect), Library.Beats, Peaks);
        }

        foreach (bool isNoisy in new[] { false, true })
        {
            yield return Answer($"light {(isNoisy ? "36 dB" : "clean")}, {LightBits} bits", detect => Signals.Light(isNoisy, LightBits, detect), Library.Feet, FeetOf);
        }
    }

    private static AnswerRow Answer(string signal, Func<Func<int[], double[]>, TwinScore> score, Func<int[], double[]> library, Func<int[], double[]> twin)
    {
        double squares = 0;
        int both = 0;
        TwinScore exact = score(codes =>
        {
            double[] ours = library(codes);
            double[] theirs = twin(codes);
            foreach (double t in ours)
            {
                double nearest = theirs.MinBy(o => Math.Abs(o - t));
                if (Math.Abs(nearest - t) < 0.15)
                {
                    squares += (nearest - t) * (nearest - t) * 1e6;
                    both++;
                }
            }

            return theirs;
        });
        return new AnswerRow(signal, score(library), exact, Math.Sqrt(squares / both));
    }

    private static double[] Peaks(int[] codes) => BeatTwin.Peaks([.. codes.Select(c => (double)c)], Signals.EcgRateHz);

    private static double[] FeetOf(int[] codes) => PulseTwin.Feet([.. codes.Select(c => (double)c)], Signals.LightRateHz);

    /// <summary>The same with nothing rounded but by the converter.</summary>
    public static StudyRow Doubles() => Twin(0, default, default);

    private static StudyRow Twin(int bits, TwinWords ecg, TwinWords light)
    {
        double[] Beats(int[] codes) => BeatTwin.Peaks([.. codes.Select(c => (double)c)], Signals.EcgRateHz, ecg);
        double[] Feet(int[] codes) => PulseTwin.Feet([.. codes.Select(c => (double)c)], Signals.LightRateHz, 1, light);
        return new StudyRow(
            bits,
            Signals.Ecg(false, ManyBits, Beats),
            Signals.Ecg(true, ManyBits, Beats),
            Signals.Light(false, ManyBits, Feet),
            Signals.Light(true, ManyBits, Feet));
    }
}
