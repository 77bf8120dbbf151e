// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests;

/// <summary>Every rhythm drawn on a grid: any cut gives the same samples, which are the sum of all waves, and the same truth.</summary>
public sealed class RhythmGridTests
{
    private const int Samples = 30_000;
    private static readonly SampleGrid s_grid = new(0.001, 1.0 / 250);

    [Test]
    public void Draw_AnyCut_GivesTheSameSamples([ValueSource(typeof(RhythmCases), nameof(RhythmCases.Names))] string name, [Values(1, 17, 500, 4096)] int cut)
    {
        Assert.That(Ecg(name, cut), Is.EqualTo(Ecg(name, 250)));
        Assert.That(Light(name, cut), Is.EqualTo(Light(name, 250)));
    }

    // The waves of every event added up by themselves, without any recurrence, and without asking who is active when.
    [Test]
    public void Draw_IsTheSumOfAllWaves([ValueSource(typeof(RhythmCases), nameof(RhythmCases.Names))] string name)
    {
        KeyValues values = RhythmCases.Values(name);
        var heart = new Heartbeats(values, 3, 125);
        double[] drawn = Ecg(name, 250);
        for (int i = 0; i < Samples; i += 7)
        {
            double t = s_grid.Seconds(i);
            double value = 0;
            double slope = 0;
            double curvature = 0;
            foreach (BeatView beat in heart.Beats)
            {
                if (Math.Abs(beat.Seconds - t) < 4)
                {
                    for (int w = 0; w < EcgBeat.Count; w++)
                    {
                        beat.Ecg[w].Accumulate(t, ref value, ref slope, ref curvature);
                    }
                }
            }

            heart.Body.Activity.Accumulate(t, ref value, ref slope, ref curvature);
            // Flutter's phase is a straight line between anchors: some 1e-5 mV, a tenth of a code.
            Assert.That(drawn[i], Is.EqualTo(value).Within(1e-4), $"at {t} s");
        }
    }

    [Test]
    public void Truth_AnyPlan_IsTheSame([ValueSource(typeof(RhythmCases), nameof(RhythmCases.Names))] string name)
    {
        List<TruthEvent> Rows(double step)
        {
            var body = new BodyModel(RhythmCases.Values(name), 3);
            var rows = new List<TruthEvent>();
            for (double t = step; t <= 120; t += step)
            {
                body.PlanUntil(t);
                while (body.Truth.TryTake(out TruthEvent row))
                {
                    rows.Add(row);
                }
            }

            return rows;
        }

        Assert.That(Rows(0.125), Is.EqualTo(Rows(120)));
    }

    // R < next R, foot after R and before the next foot, pressure and transit in their order.
    [Test]
    public void Truth_KeepsItsOrder([ValueSource(typeof(RhythmCases), nameof(RhythmCases.Names))] string name)
    {
        var heart = new Heartbeats(RhythmCases.Values(name), 4, 600);
        double lastR = double.NegativeInfinity;
        double lastFoot = double.NegativeInfinity;
        foreach (BeatView beat in heart.Beats.Where(b => b.IsBeat))
        {
            Assert.That(beat.R.Seconds, Is.GreaterThan(lastR));
            lastR = beat.R.Seconds;
            if (beat.Landmarks.HasFoot)
            {
                Assert.That(beat.Landmarks.FootTangentSeconds, Is.GreaterThan(beat.R.Seconds).And.GreaterThan(lastFoot));
                lastFoot = beat.Landmarks.FootTangentSeconds;
            }

            Assert.That(beat.Arrival.Pressure.SystolicMmhg, Is.GreaterThanOrEqualTo(beat.Arrival.Pressure.MeanMmhg));
            Assert.That(beat.Arrival.Pressure.MeanMmhg, Is.GreaterThanOrEqualTo(beat.Arrival.Pressure.DiastolicMmhg));
            if (beat.Class == BeatClass.VentricularRun)
            {
                // Repolarisation ends before the next beat of a run.
                Assert.That(beat.Ecg[EcgBeat.T].EndSeconds - beat.Ecg[EcgBeat.Q].OnsetSeconds, Is.LessThan(Math.Max(beat.RrSeconds, 0.251)));
            }
            Assert.That(beat.Arrival.PepSeconds + beat.Arrival.PttSeconds, Is.EqualTo(beat.Arrival.PatSeconds).Within(1e-12));
        }

        Assert.That(heart.Body.Truth.OverflowCount, Is.Zero);
    }

    private static double[] Ecg(string name, int cut) =>
        Read(new EcgGrid(new BodyModel(RhythmCases.Values(name), 3), s_grid).Add, cut);

    private static double[] Light(string name, int cut) =>
        Read(new PulseGrid(new BodyModel(RhythmCases.Values(name), 3), s_grid, ChannelName.Red).Add, cut);

    private delegate void AddSamples(Span<double> buffer, long firstIndex);

    private static double[] Read(AddSamples add, int cut)
    {
        var all = new double[Samples];
        for (int done = 0; done < Samples; done += cut)
        {
            add(all.AsSpan(done, Math.Min(cut, Samples - done)), done);
        }

        return all;
    }
}
