// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Tests.Shared;

/// <summary>A signal of a foreign file: records of one second, samples from -32767 to 32767.</summary>
/// <param name="Label">Label.</param>
/// <param name="Dimension">Unit.</param>
/// <param name="Largest">Physical value of 32767; the smallest one is its negative.</param>
/// <param name="RateHz">Samples in a record.</param>
/// <param name="Code">Sample of an index.</param>
internal sealed record ForeignSignal(string Label, string Dimension, int Largest, int RateHz, Func<int, short> Code);

/// <summary>EDF+ files put together by hand from the published layout, apart from the product's own writer.</summary>
/// <remarks>Kemp et al., EEG Clin Neurophysiol 82:391 (1992); Kemp and Olivan, Clin Neurophysiol 114:1755 (2003).</remarks>
internal static class ForeignEdf
{
    private const int NoteSamples = 120;

    /// <summary>The bytes of a file.</summary>
    /// <param name="seconds">Length [s].</param>
    /// <param name="signals">The signals.</param>
    /// <param name="notes">Annotations: onset [s] and text.</param>
    public static byte[] Bytes(int seconds, ForeignSignal[] signals, params (double OnsetS, string Text)[] notes)
    {
        int count = signals.Length + 1;
        var header = new StringBuilder();
        void Put(int width, string text) => header.Append(text.PadRight(width));
        void PutEach(int width, Func<ForeignSignal, string> of, string note)
        {
            foreach (ForeignSignal signal in signals)
            {
                Put(width, of(signal));
            }

            Put(width, note);
        }

        Put(8, "0");
        Put(80, "X X X X");
        Put(80, "Startdate 02-MAR-2026 X X X");
        Put(8, "02.03.26");
        Put(8, "10.11.12");
        Put(8, Number(256 * (count + 1)));
        Put(44, "EDF+C");
        Put(8, Number(seconds));
        Put(8, "1");
        Put(4, Number(count));
        PutEach(16, s => s.Label, "EDF Annotations");
        PutEach(80, _ => "", "");
        PutEach(8, s => s.Dimension, "");
        PutEach(8, s => Number(-s.Largest), "-1");
        PutEach(8, s => Number(s.Largest), "1");
        PutEach(8, _ => "-32767", "-32768");
        PutEach(8, _ => "32767", "32767");
        PutEach(80, _ => "", "");
        PutEach(8, s => Number(s.RateHz), Number(NoteSamples));
        PutEach(32, _ => "", "");

        var bytes = new List<byte>(Encoding.ASCII.GetBytes(header.ToString()));
        for (int second = 0; second < seconds; second++)
        {
            foreach (ForeignSignal signal in signals)
            {
                for (int i = 0; i < signal.RateHz; i++)
                {
                    short code = signal.Code((second * signal.RateHz) + i);
                    bytes.Add((byte)code);
                    bytes.Add((byte)(code >> 8));
                }
            }

            string tals = $"+{Number(second)}\u0014\u0014\0" + string.Concat(notes.Where(n => (int)n.OnsetS == second)
                .Select(n => string.Create(CultureInfo.InvariantCulture, $"+{n.OnsetS}\u0014{n.Text}\u0014\0")));
            byte[] text = Encoding.UTF8.GetBytes(tals);
            Array.Resize(ref text, 2 * NoteSamples);
            bytes.AddRange(text);
        }

        return [.. bytes];
    }

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
