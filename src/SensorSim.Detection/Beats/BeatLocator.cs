// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Fifth stage, once per hump: finds the QRS complex in the held ECG and the R peak inside it.</summary>
/// <remarks>
/// Input: codes (or sums of up to four), 26 bits.
/// Product: none.
/// Accumulator: 32 bits; sums of up to 5 samples, differences one bit more.
/// Worst case: 2^26 × 5 below 2^29.
/// Output: place in 1/256 of a working sample, deviation in codes (or their sums), slope per two slope arms.
/// </remarks>
public partial struct BeatLocator
{
    private const int Mask = Word256.Length - 1;

    /// <summary>Place of the R peak [1/256 working sample].</summary>
    public long Position256 { get; private set; }

    /// <summary>Deviation of the R peak from the level before the complex, sign kept.</summary>
    public int Deviation { get; private set; }

    /// <summary>Steepest slope of the complex, as a difference over two slope arms.</summary>
    public int Slope { get; private set; }

    /// <summary>Looks round a middle for the steepest place and takes the complex round it.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="ecg">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="middle">Working sample in the middle of the complex.</param>
    /// <param name="last">Newest working sample held.</param>
    public void Locate(in BeatWindows w, in Word256 ecg, long middle, long last)
    {
        int newest = (int)(last - middle) - w.SlopeArm - w.PeakArm;
        int steepest = Steepest(w, ecg, (int)(middle & Mask), -w.SteepReach, w.SteepReach < newest ? w.SteepReach : newest);
        Measure(w, ecg, middle, newest, steepest, -w.QrsReach, w.QrsReach);
    }

    /// <summary>Takes the complex whose R peak is known to lie near a place.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="ecg">Held ECG.</param>
    /// <param name="near">The place.</param>
    /// <param name="last">Newest working sample held.</param>
    public void LocateNear(in BeatWindows w, in Word256 ecg, long near, long last)
    {
        int newest = (int)(last - near) - w.SlopeArm - w.PeakArm;
        int steepest = Steepest(w, ecg, (int)(near & Mask), -w.Quiet, w.Quiet < newest ? w.Quiet : newest);
        Measure(w, ecg, near, newest, steepest, -w.NearReach, w.NearReach);
    }

    private void Measure(in BeatWindows w, in Word256 ecg, long middle, int newest, int steepest, int from, int to)
    {
        // Everything is relative to the middle from here on, so 32 bits do.
        int origin = (int)(middle & Mask);
        int limit = QuietLimit(w, ecg, origin);
        int begin = Edge(w, ecg, origin, steepest, -1, limit, newest);
        int end = Edge(w, ecg, origin, steepest, +1, limit, newest);
        int level = Level(w, ecg, origin, begin);

        int best = begin > from ? begin : from;
        int largest = -1;
        for (int i = best; i <= end && i <= to; i++)
        {
            int deviation = Sat.Abs32(Smooth(w, ecg, origin + i) - (level * 4));
            if (deviation > largest)
            {
                largest = deviation;
                best = i;
            }
        }

        int here = Smooth(w, ecg, origin + best);
        int arm = w.PeakArm;
        int offset = Parabola.Vertex256(Smooth(w, ecg, origin + best - arm), here, Smooth(w, ecg, origin + best + arm));
        Deviation = Shift.Round(here - (level * 4), 2);
        Position256 = ((middle + best) * 256) + (offset * arm);
    }

    private int Steepest(in BeatWindows w, in Word256 ecg, int origin, int from, int until)
    {
        int at = 0;
        int slope = -1;
        if (Avx2.IsSupported && TrySteepest(w, ecg, origin + from, until - from + 1, out int far, out slope))
        {
            Slope = slope;
            return from + far;
        }

        for (int i = from; i <= until; i++)
        {
            int here = SlopeAt(w, ecg, origin + i);
            if (here > slope)
            {
                slope = here;
                at = i;
            }
        }

        Slope = slope;
        return at;
    }

    /// <summary>
    /// Slope below which the complex is over: an eighth of the steepest, in noise twice the mean slope before the complex, at most
    /// three eighths.
    /// </summary>
    private readonly int QuietLimit(in BeatWindows w, in Word256 ecg, int origin)
    {
        int stride = (w.QrsReach + 15) >> 4;
        int sum = 0;
        for (int i = 0; i < 16; i++)
        {
            sum += Shift.Floor(SlopeAt(w, ecg, origin - w.QrsReach - (i * stride)), 3);
        }

        int eighth = Shift.Floor(Slope, 3);
        return sum < eighth ? eighth : sum < 3 * eighth ? sum : 3 * eighth;
    }

    /// <summary>Walks outward until the slope has stayed small for the quiet time; gives the last place that was not small.</summary>
    private static int Edge(in BeatWindows w, in Word256 ecg, int origin, int steepest, int step, int limit, int newest)
    {
        int edge = steepest;
        int at = steepest;
        int left = w.QrsReach - (at * step);
        for (; left > 0 && at + step <= newest; left--)
        {
            at += step;
            if (SlopeAt(w, ecg, origin + at) > limit)
            {
                edge = at;
            }
            else if ((at - edge) * step >= w.Quiet)
            {
                break;
            }
        }

        return edge;
    }

    /// <summary>Mean of four points spread over the quiet time before the complex.</summary>
    private static int Level(in BeatWindows w, in Word256 ecg, int origin, int begin)
    {
        int at = origin + begin - w.SlopeArm;
        int sum = 0;
        for (int i = 0; i < 4; i++)
        {
            sum += ecg[(at - ((i * w.Quiet) >> 2)) & Mask];
        }

        return Shift.Round(sum, 2);
    }

    private static int SlopeAt(in BeatWindows w, in Word256 ecg, int at) =>
        Sat.Abs32(ecg[(at + w.SlopeArm) & Mask] - ecg[(at - w.SlopeArm) & Mask]);

    /// <summary>Four times the signal, smoothed by 1-2-1 over half peak arms.</summary>
    private static int Smooth(in BeatWindows w, in Word256 ecg, int at)
    {
        int arm = (w.PeakArm + 1) >> 1;
        return ecg[(at - arm) & Mask] + (2 * ecg[at & Mask]) + ecg[(at + arm) & Mask];
    }
}
