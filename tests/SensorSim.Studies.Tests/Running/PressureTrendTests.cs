// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detectors;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Weeks of pressure: a wearer who measures for some minutes each morning, the device off in between, from samples to the trend.</summary>
[TestFixture]
public sealed class PressureTrendTests
{
    private const int SecondsPerDay = 86_400;
    private const int SessionS = 100;
    private const int NormalDays = 16;

    private static readonly DetectorCalibration s_calibration = new()
    {
        TimeOfDayH = 8,
        Pressure = new PressureCurve("logarithmic", [new(201.4, 120, 80), new(187.7, 137, 92)]),
        Trend = new TrendSearch { LearningDays = 7 },
    };

    private readonly SampleBlock _empty = new(Day(0, 0).Format, Day(0, 0).Format.Clock.TicksPerSecond * 60);

    // From day to day the pressure varies by an SD of 3 mmHg; from day 16 on it is 11 mmHg higher (systolic), or stays. A change of three
    // SDs of what is assumed and learned by then takes two to six days to be certain; its size is that of the readings, within 4 mmHg.
    [TestCase(8, 11)]
    [TestCase(-8, -11)]
    [Category("Slow")]
    public void Process_PressureMovesAfterDaySixteen_IsToldWithinAWeekAndNotBefore(double diastolic, double systolic)
    {
        (int Day, double Change)[] told = Run(NormalDays + 9, day => day < NormalDays ? 0 : diastolic);

        Assert.That(told, Is.Not.Empty);
        Assert.That(told[0].Day, Is.InRange(NormalDays + 2, NormalDays + 7));
        Assert.That(told[^1].Change, Is.EqualTo(systolic).Within(4));
    }

    [Test]
    [Category("Slow")]
    public void Process_PressureStays_TellsNothing() => Assert.That(Run(NormalDays + 9, _ => 0), Is.Empty);

    // The days that told a change, and how large.
    private (int Day, double Change)[] Run(int days, Func<int, double> change)
    {
        using var detector = new LibraryDetector(s_calibration);
        var output = new DetectorOutput();
        var told = new List<(int Day, double Change)>();
        int pressures = 0;
        detector.Start(Day(0, 0).Format);
        for (int day = 0; day < days; day++)
        {
            // A normal law by twelve draws of a fixed sequence (textbook).
            var random = new Random(5100 + day);
            double normal = Enumerable.Range(0, 12).Sum(_ => random.NextDouble()) - 6;
            SensorStream stream = Day(day, (2 * normal) + change(day));
            long ticks = stream.Format.Clock.TicksPerSecond;
            long begin = (long)day * SecondsPerDay * ticks;
            Session(detector, output, stream, begin);
            for (int second = SessionS; second < SecondsPerDay; second += 60)
            {
                _empty.Begin(begin + (second * ticks), begin + (Math.Min(second + 60, SecondsPerDay) * ticks));
                detector.Process(_empty, output);
            }

            while (output.Marks.TryTake(out Mark mark))
            {
                pressures += mark.Kind == MarkKind.SystolicMmhg ? 1 : 0;
                if (mark.Kind == MarkKind.PressureTrendMmhg)
                {
                    told.Add((day, mark.ValueMilli / 1000.0));
                }
            }
        }

        Assert.That(pressures, Is.GreaterThan(8 * days), "there are pressures on every day");
        return [.. told];
    }

    private static SensorStream Day(int day, double more) => ScenarioReader.ReadText(
        string.Create(CultureInfo.InvariantCulture, $"""
            [scenario]
            duration_s = {SessionS}
            seed = {5100 + day}
            [heart]
            rate_bpm = 66
            [arrival]
            from = "pressure"
            [pressure]
            diastolic_mmhg = {80 + more}
            pulse_pressure_mmhg = {40 + (more * 5 / 12)}
            """),
        "day.toml").CreateStream();

    // The samples of a stream, as if its device had run since the first day.
    private static void Session(LibraryDetector detector, DetectorOutput output, SensorStream stream, long begin)
    {
        long second = stream.Format.Clock.TicksPerSecond;
        var made = new SampleBlock(stream.Format, second);
        var moved = new SampleBlock(stream.Format, second);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(made, stream.PositionTick + second);
            moved.Begin(begin + made.BeginTick, begin + made.EndTick);
            for (int c = 0; c < made.Channels.Length; c++)
            {
                foreach (SampleRun run in made.Channels[c].Runs)
                {
                    long first = run.FirstIndex + (begin / stream.Format.TicksPerSample(c));
                    moved.Channels[c].Append(first, run.Count, out Span<int> codes, out Span<ushort> status);
                    made.Channels[c].Codes.Slice(run.Offset, run.Count).CopyTo(codes);
                    made.Channels[c].Status.Slice(run.Offset, run.Count).CopyTo(status);
                }
            }

            detector.Process(moved, output);
            while (stream.Truth.TryTake(out _))
            {
            }

            while (stream.Acquisition.TryTake(out _))
            {
            }
        }
    }
}
