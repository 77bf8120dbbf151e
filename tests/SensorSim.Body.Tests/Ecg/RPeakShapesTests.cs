// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>The solver for the R peak on every kind of beat, with P and T in the way, against a brute-force search.</summary>
/// <remarks>
/// The search goes over the whole QRS at 10 µs for both signs, then at 1 MHz within 1 ms of what it found: every wave is wider than 3 ms, so
/// no hump hides between. Required: 10 µs.
/// </remarks>
public sealed class RPeakShapesTests
{
    public static IEnumerable<TestCaseData> Kinds()
    {
        foreach (BeatClass kind in Enum.GetValues<BeatClass>().Where(k => k is not (BeatClass.None or BeatClass.Blocked)))
        {
            yield return new TestCaseData(kind, "sinus", "normal");
        }

        yield return new TestCaseData(BeatClass.AtrialArrhythmia, "atrial_fibrillation", "normal");
        yield return new TestCaseData(BeatClass.AtrialArrhythmia, "atrial_flutter", "normal");
        yield return new TestCaseData(BeatClass.VentricularPremature, "atrial_fibrillation", "swapped");
        yield return new TestCaseData(BeatClass.Normal, "sinus", "swapped");
    }

    [TestCaseSource(nameof(Kinds))]
    public void Seconds_RandomBeats_AgreeWithBruteForce(BeatClass kind, string rhythm, string polarity) => Check(kind, rhythm, polarity, 60);

    [Category("Slow")]
    [TestCaseSource(nameof(Kinds))]
    public void Seconds_ManyRandomBeats_AgreeWithBruteForce(BeatClass kind, string rhythm, string polarity) => Check(kind, rhythm, polarity, 200);

    private static void Check(BeatClass kind, string rhythm, string polarity, int beats)
    {
        var random = new KeyedRandom(77, "test.rpeaks");
        double worst = 0;
        for (int n = 0; n < beats; n++)
        {
            int draw = 0;
            double U(double from, double to) => from + ((to - from) * random.Uniform((100 * n) + draw++));
            KeyValues values = new KeyValues().Set(HeartKeys.Rhythm, rhythm).Set(EcgKeys.Polarity, polarity)
                .Set(EcgKeys.RMv, U(-0.5, 2)).Set(EcgKeys.SMv, U(-1.5, 0.3)).Set(EcgKeys.QMv, U(-0.5, 0.2)).Set(EcgKeys.PMv, U(-0.2, 0.3))
                .Set(EcgKeys.TMv, U(-0.5, 1.2)).Set(EcgKeys.StLevelMv, U(-0.3, 0.3)).Set(EcgKeys.QrsMs, U(60, 130))
                .Set(EcgKeys.VentricularQrsMs, U(120, 220)).Set(EcgKeys.PacedQrsMs, U(120, 220)).Set(EcgKeys.VentricularMv, U(-2, 2))
                .Set(EcgKeys.PacedMv, U(-2, 2)).Set(AtrialKeys.FibrillationMv, 0.3).Set(AtrialKeys.FlutterMv, 0.4);
            var shape = new EcgShape(values);
            var activity = new EcgActivity(values, (ulong)n);
            double r = U(20, 21);
            double rr = U(0.35, 1.2);
            EcgBeat own = shape.Lay(Plans.Of(kind, r, rr, hasP: n % 3 == 0) with { PrSeconds = U(0.1, 0.3) });

            // R on T: the beat before as near as a fifth of a second; a P wave of dissociated atria anywhere, often inside the QRS.
            EcgBeat[] neighbours =
            [
                shape.Lay(Plans.Normal(r - U(0.2, 0.9), rr)), shape.Lay(Plans.Of(BeatClass.VentricularPremature, r + U(0.3, 1), rr)),
                shape.LayP(r + U(-0.25, 0.1), 0),
            ];
            RPeak peak = RPeakSolver.Solve(neighbours, own, activity);
            Found found = Search([own, .. neighbours], activity);
            string where = $"beat {n}, {peak}, found {found}";
            Assert.That(peak.Seconds, Is.EqualTo(found.Seconds).Within(10e-6), where);
            Assert.That(peak.Millivolts, Is.EqualTo(found.Millivolts).Within(1e-6), where);
            Assert.That(peak.IsAmbiguous, Is.EqualTo(found.Share > 0.8), where);
            worst = Math.Max(worst, Math.Abs(peak.Seconds - found.Seconds));
        }

        TestContext.Out.WriteLine($"{kind}, {rhythm}, {polarity}: largest difference {worst * 1e6:F2} µs");
    }

    // A P of dissociated atria on the shoulder of a QRS that is no higher than it: the peak is P's, not R's.
    [TestCase(0.055, 0.3)]
    [TestCase(0.065, 0.2)]
    [TestCase(-0.04, 0.3)]
    public void Seconds_HigherPInsideTheQrs_AreWhereTheSearchSays(double pAfterR, double pMv)
    {
        KeyValues values = new KeyValues().Set(EcgKeys.PMv, pMv).Set(EcgKeys.VentricularMv, 0.15).Set(EcgKeys.VentricularQrsMs, 220);
        var shape = new EcgShape(values);
        EcgBeat own = shape.Lay(Plans.Of(BeatClass.VentricularRun, 5, 1));
        double edge = Math.Sqrt(2 * Math.Log(50));
        EcgBeat p = shape.LayP(5 + pAfterR - (edge * 0.0179), 0);
        var none = new EcgActivity(values, 1);
        Found found = Search([own, p], none);
        Assert.That(found.Seconds, Is.EqualTo(5 + pAfterR).Within(0.01), "the case is what it is meant to be");
        Assert.That(RPeakSolver.Solve([p], own, none).Seconds, Is.EqualTo(found.Seconds).Within(10e-6));
    }

    // A small R on the upstroke of a T: R makes a hump, yet the largest deviation inside the QRS is T's, at its end.
    [TestCase(0.6, 0.045)]
    [TestCase(0.55, 0.04)]
    public void Seconds_SmallROnAHighT_AreWhereTheSearchSays(double tMv, double tAfterR)
    {
        KeyValues values = new KeyValues().Set(EcgKeys.PMv, 0).Set(EcgKeys.QMv, 0).Set(EcgKeys.RMv, 0.15).Set(EcgKeys.SMv, 0);
        EcgBeat own = new EcgShape(values).Lay(Plans.Normal(5, 1));
        EcgBeat before = default;
        before[EcgBeat.T] = new EcgWave(5 + tAfterR, 0.04, tMv);
        var none = new EcgActivity(values, 1);
        Found found = Search([own, before], none);
        Assert.That(found.Seconds, Is.GreaterThan(5.03), "the case is what it is meant to be");
        Assert.That(RPeakSolver.Solve([before], own, none).Seconds, Is.EqualTo(found.Seconds).Within(10e-6));
    }

    [Test]
    public void Seconds_NoQrsAtAll_StayAtRsPlace()
    {
        KeyValues flat = new KeyValues().Set(EcgKeys.QMv, 0).Set(EcgKeys.RMv, 0).Set(EcgKeys.SMv, 0).Set(EcgKeys.PMv, 0).Set(EcgKeys.TMv, 0);
        RPeak peak = RPeakSolver.Solve([default, default], new EcgShape(flat).Lay(Plans.Normal(3, 1)), new EcgActivity(flat, 1));
        Assert.That(peak, Is.EqualTo(new RPeak(3, 0, IsAmbiguous: false)));
    }

    private static Found Search(EcgBeat[] events, EcgActivity activity)
    {
        EcgBeat own = events[0];
        double onset = own[EcgBeat.Q].OnsetSeconds;
        double end = own[EcgBeat.S].EndSeconds;
        EcgWave[] waves = [.. events.SelectMany(e => Enumerable.Range(0, EcgBeat.Count).Select(i => e[i]))
            .Where(w => w.Millivolts != 0 && w.CentreSeconds > onset - (9 * w.SigmaSeconds) && w.CentreSeconds < end + (9 * w.SigmaSeconds))];
        double V(double t)
        {
            double sum = 0;
            double ignored = 0;
            foreach (EcgWave wave in waves)
            {
                double x = (t - wave.CentreSeconds) / wave.SigmaSeconds;
                sum += wave.Millivolts * Math.Exp(-x * x / 2);
            }

            activity.Accumulate(t, ref sum, ref ignored, ref ignored);
            return sum;
        }

        double level = V(onset);
        (double up, double upAt) = Highest(t => V(t) - level, onset, end);
        (double down, double downAt) = Highest(t => level - V(t), onset, end);
        return up >= down ? new Found(upAt, level + up, down / up) : new Found(downAt, level - down, up / down);
    }

    private static (double Value, double Seconds) Highest(Func<double, double> value, double from, double to)
    {
        (double best, double at) = Scan(value, from, to, 10e-6);
        return Scan(value, Math.Max(from, at - 1e-3), Math.Min(to, at + 1e-3), 1e-6, best, at);
    }

    private static (double Value, double Seconds) Scan(
        Func<double, double> value, double from, double to, double step, double best = double.NegativeInfinity, double at = double.NaN)
    {
        int steps = (int)Math.Ceiling((to - from) / step);
        for (int i = 0; i <= steps; i++)
        {
            double t = Math.Min(to, from + (i * step));
            double v = value(t);
            (best, at) = v > best ? (v, t) : (best, at);
        }

        return (best, at);
    }

    private readonly record struct Found(double Seconds, double Millivolts, double Share);
}
