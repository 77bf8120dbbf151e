// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Makes every file of one case: samples, truth, acquisition, acceptance, the library's answers, headers, picture.</summary>
internal sealed class CaseMaker
{
    // Acceptance needs all truth at once: a day has some million rows.
    private const double LongestS = 86_400;

    private readonly SetFiles _files;
    private readonly string _plan;
    private readonly PlannedCase _case;
    private readonly Func<CasePicture, byte[]>? _draw;

    /// <summary>Prepares.</summary>
    /// <param name="files">Where files go.</param>
    /// <param name="plan">Name of the plan, for messages.</param>
    /// <param name="planned">The case.</param>
    /// <param name="draw">Gives the bytes of the picture; null: none is drawn.</param>
    public CaseMaker(SetFiles files, string plan, PlannedCase planned, Func<CasePicture, byte[]>? draw)
    {
        _files = files;
        _plan = plan;
        _case = planned;
        _draw = draw;
    }

    /// <summary>Makes the case.</summary>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="InputFileException">The plan asks for what the case's stream cannot give.</exception>
    public MadeCase Make(CancellationToken cancellation)
    {
        if (_case.DurationS > LongestS)
        {
            throw new InputFileException(_plan, 0, 0, FormattableString.Invariant($"case {_case.Name} has {_case.DurationS:R} s; a case of a set may have {LongestS:R}, set duration_s."));
        }

        IToldStream stream = _case.Scenario.OpenStream();
        StreamFormat format = stream.Format;
        HeaderCapture[] captures = [.. _case.Headers.Select(h => new HeaderCapture(_plan, _case, h, format))];
        var captured = _draw is null ? null : new FirstSeconds(format, 0, Math.Min(CasePicture.LongestS, _case.DurationS), stream.Clocks);
        var acquisitionText = new TeeStream(_files.Create(PathOf(SetNames.Acquisition)));
        var expectedText = new TeeStream(_files.Create(PathOf(SetNames.Expected)));
        using var rows = new CaseRows(_files.Create(PathOf(SetNames.Truth)), expectedText, format);
        using var raw = new RawRecordingWriter(name => _files.Create(PathOf(name), _case.Stimulus.Contains(StimulusForm.Raw)), format);
        using var acquisition = new AcquisitionFile(acquisitionText, _case.Scenario, format);
        using BdfSink? bdf = StartBdf(stream);
        List<IRunSink> sinks = [rows, new RawSink(raw), acquisition, .. captures];
        if (bdf is not null)
        {
            sinks.Add(bdf);
        }

        if (captured is not null)
        {
            sinks.Add(captured);
        }

        Run(stream, _case.Calibration?.Calibration, cancellation, [.. sinks]);
        raw.Complete();
        bdf?.Complete();
        acquisition.Complete();
        rows.Dispose();
        IReadOnlyList<AcquisitionRow> acquired;
        using (var reader = new AcquisitionCsvReader(acquisitionText.Kept, SetNames.Acquisition))
        {
            acquired = [.. reader.ReadAll()];
        }

        IReadOnlyList<AcceptanceRow> acceptance = AcceptanceWindows.Of(_case, rows.Truth, acquired);
        AcceptanceCsvWriter.Write(_files.Create(PathOf(SetNames.Acceptance)), acceptance);
        using var marks = new DetectionsCsvReader(expectedText.Kept, SetNames.Expected);
        IReadOnlyList<RequirementVerdict> verdicts = Judge.Case(_case, acceptance, marks.ReadAll(), isOwnLibrary: true);
        ManifestHeader[] headers = [.. captures.Select((c, i) => WriteHeader(_case.Headers[i], c.Complete(), cancellation))];
        if (captured is not null)
        {
            _files.Write(PathOf(SetNames.Picture), _draw!(new CasePicture(_case, captured, Demands(acceptance))));
        }

        return new MadeCase(_case, Facts(format, rows.SampleCounts, headers), verdicts);
    }

    private static CaseDemand[] Demands(IReadOnlyList<AcceptanceRow> acceptance) =>
    [
        .. acceptance.Where(r => r.Rule is AcceptanceRule.None or AcceptanceRule.Some or AcceptanceRule.Within).Select(r => new CaseDemand(
            r.Requirement,
            r.Channel,
            r.Rule switch { AcceptanceRule.None => DemandKind.Nothing, AcceptanceRule.Some => DemandKind.Something, _ => DemandKind.Values },
            r.BeginNs * 1e-9,
            r.EndNs * 1e-9,
            r.Low,
            r.High)),
    ];

    private ManifestHeader WriteHeader(PlannedHeader planned, VectorHeader header, CancellationToken cancellation)
    {
        string file = PathOf($"{header.Name}.h");
        string expected = PathOf($"{header.Name}.expected.csv");
        VectorHeaderWriter.Write(_files.Create(file), header);
        var stream = new HeaderStream(header);
        using (var marks = new MarksSink(_files.Create(expected), stream.Format))
        {
            Run(stream, null, cancellation, marks);
        }

        return new ManifestHeader(file, expected, [.. stream.Format.Channels.Select(c => c.Name.Text())], planned.Bits, planned.KeepEvery, header.ArrayBytes);
    }

    private BdfSink? StartBdf(IToldStream stream)
    {
        try
        {
            return _case.Stimulus.Contains(StimulusForm.Bdf) ? new BdfSink(name => _files.Create(PathOf(name)), stream) : null;
        }
        catch (NotSupportedException e)
        {
            throw Refused(e);
        }
    }

    private void Run(ISampleStream stream, DetectorCalibration? calibration, CancellationToken cancellation, params IRunSink[] sinks)
    {
        try
        {
            using var factory = new LibraryFactory(calibration);
            using IDetector library = factory.Create(new Dictionary<string, double>());
            RunOutcome outcome = new Runner(stream, (stream as IToldStream)?.Truth, library, scorer: null, sinks).Run(cancellation: cancellation);
            if (outcome.Verdict is not (Verdict.Answered or Verdict.Silent))
            {
                throw new InvalidOperationException($"Case {_case.Name}: {outcome.VerdictReason}");
            }
        }
        catch (NotSupportedException e)
        {
            throw Refused(e);
        }
    }

    private ManifestCase Facts(StreamFormat format, IReadOnlyList<long> counts, ManifestHeader[] headers) => new()
    {
        Name = _case.Name,
        About = _case.About,
        Scenario = _case.ScenarioPath,
        Seed = _case.Seed,
        DurationS = _case.DurationS,
        Calibration = _case.CalibrationPath,
        Disturbance = _case.Disturbance,
        Level = _case.Level.Text(),
        Requirements = [.. _case.Requirements.Select(r => r.Id)],
        Deviations = [.. _case.Deviations.Select(d => new ManifestDeviation(d.RequirementId, d.Reason))],
        Channels = [.. format.Channels.Select((c, i) => new ManifestChannel(c.Name.Text(), c.RateHz, c.Bits, counts[i]))],
        Stimulus = [.. _case.Stimulus.Select(s => s.Text())],
        Sums = new StreamSums(StimulusMaker.Sum(format, SumOf), SumOf(SetNames.Truth), SumOf(SetNames.Acquisition), SumOf(SetNames.Acceptance), SumOf(SetNames.Expected)),
        Headers = headers,
    };

    private InputFileException Refused(Exception e) => new(_plan, 0, 0, $"case {_case.Name}: {e.Message}", e);

    private string SumOf(string name) => _files.SumOf(PathOf(name));

    private string PathOf(string name) => $"{_case.Name}/{name}";
}
