// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Scoring of a minute's truth and marks, over and over, each time a minute later: a figure is per sample of the stream.</summary>
[MemoryDiagnoser]
public class ScorerBenchmarks
{
    // The lead-in of an endless record is five minutes.
    private const int LeadInMinutes = 6;

    private readonly Run _rest = new(StreamInput.Rest);
    private readonly Run _on = new(StreamInput.EverythingOn);

    /// <summary>A person at rest.</summary>
    [Benchmark(OperationsPerInvoke = Recording.Seconds * StreamInput.SamplesPerSecond)]
    public void Score_Rest() => _rest.ScoreMinute();

    /// <summary>Every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Recording.Seconds * StreamInput.SamplesPerSecond)]
    public void Score_EverythingOn() => _on.ScoreMinute();

    private sealed class Run
    {
        private readonly Recording _recording;
        private readonly StreamFormat _format;
        private readonly Scorer _scorer;
        private readonly long _beats;
        private long _minute;

        public Run(StreamInput input)
        {
            _recording = Recording.Of(input, out _format);
            _scorer = LibraryRows.CreateScorer(input.CreateStream());
            _beats = 1 + _recording.Truth.Max(second => second.Select(t => t.BeatId).DefaultIfEmpty(0).Max());
            for (int i = 0; i < LeadInMinutes; i++)
            {
                ScoreMinute();
            }
        }

        public void ScoreMinute()
        {
            long beginNs = _minute * Recording.Seconds * 1_000_000_000;
            for (int i = 0; i < Recording.Seconds; i++)
            {
                foreach (TruthEvent truth in _recording.Truth[i])
                {
                    _scorer.AddTruth(truth with { TimeNs = truth.TimeNs + beginNs, BeatId = truth.BeatId + (_minute * _beats) });
                }

                foreach (Mark mark in _recording.Marks[i])
                {
                    _scorer.AddMark(Later(mark));
                }

                _scorer.AdvanceTo(beginNs + ((i + 1) * 1_000_000_000L));
            }

            _minute++;
        }

        private Mark Later(in Mark mark)
        {
            long seconds = _minute * Recording.Seconds;
            int pair = mark.PairedChannel;
            return mark with
            {
                Sample = mark.Sample + (seconds * _format.Channels[mark.Channel].RateHz),
                EmittedTick = mark.EmittedTick + (seconds * _format.Clock.TicksPerSecond),
                PairedSample = pair == Mark.None ? mark.PairedSample : mark.PairedSample + (seconds * _format.Channels[pair].RateHz),
            };
        }
    }
}
