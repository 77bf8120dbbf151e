// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Puts the page about a study together, section by section.</summary>
internal sealed class StudyPage
{
    private readonly PooledFigures _pooled;
    private readonly PointLayout _layout;
    private readonly IReadOnlyList<FailurePoint> _points;
    private readonly StudyReportOptions _options;
    private readonly IReadOnlyList<(AgreementData Data, AgreementLimits? Limits)> _agreement;
    private readonly IReadOnlyList<StudyFigure> _figures;
    private readonly byte[][] _vectors;
    private readonly List<Table> _tables = [];
    private readonly HtmlPage _page;

    internal StudyPage(
        PooledFigures pooled,
        PointLayout layout,
        IReadOnlyList<FailurePoint> points,
        StudyReportOptions options,
        IReadOnlyList<(AgreementData Data, AgreementLimits? Limits)> agreement,
        IReadOnlyList<StudyFigure> figures,
        byte[][] vectors)
    {
        _pooled = pooled;
        _layout = layout;
        _points = points;
        _options = options;
        _agreement = agreement;
        _figures = figures;
        _vectors = vectors;
        _page = new HtmlPage(Results.Plan.Title);
    }

    /// <summary>The tables of the page, for files; known once the text is made.</summary>
    internal IReadOnlyList<Table> Tables => _tables;

    private StudyResults Results => _pooled.Results;

    internal string Text()
    {
        _page.Section("In short");
        _page.List([.. StudyFacts.InShort(_pooled, _points), .. _options.Notes]);
        _page.Paragraph(StudyFacts.Cautions[0], "caution");
        _page.Section("What was run");
        _page.Facts(StudyFacts.WhatWasRun(Results, _layout, _options));
        FailurePoints();
        Points();
        WorstCases();
        Agreement();
        _page.Section("Events counted");
        Add(RecordTable.Of(_pooled));
        _page.Paragraph(RecordTable.Definition);
        _page.Section("Verdicts");
        Add(OtherTables.Verdicts(Results));
        _page.Paragraph("Silent: no mark at all; babbling: more marks in a second than there is room for; crashed: an exception, the end of its process, or marks that the stream cannot have; hung: no answer in time; lying: marks of samples that it had not been given. A run without an answer meets no requirement, and what it missed counts.");
        Definitions();
        return _page.Finish();
    }

    private void FailurePoints()
    {
        if (_points.Count == 0 && !_figures.Any(f => f.Name.StartsWith("curves", StringComparison.Ordinal)))
        {
            return;
        }

        _page.Section(_points.Count == 0 ? "Figures over the levels" : "Failure points");
        string[] definitions = [.. _points.Select(p => p.Definition).Distinct(StringComparer.Ordinal)];
        if (_points.Count > 0)
        {
            Add(FailurePointTable.Points(Results.Plan, _points, definitions));
            _page.Paragraph("The definitions:");
            _page.List(definitions, isNumbered: true);
            string[] warnings = [.. FailurePointTable.Warnings(Results.Plan, _points)];
            if (warnings.Length > 0)
            {
                _page.Paragraph("Warnings:");
                _page.List(warnings);
            }

        }

        Figures("curves");
        int left = LevelFigures.Count(_points) - LevelFigures.MostFigures;
        if (left > 0)
        {
            _page.Paragraph(FormattableString.Invariant($"{left} more combinations of the other keys' values are not drawn; all their numbers are in report/tables/levels.csv."));
        }

        if (_points.Count > 0)
        {
            Add(FailurePointTable.Levels(Results.Plan, _points));
        }
    }

    private void Points()
    {
        _page.Section("Requirements");
        if (_pooled.Requirements.Count == 0)
        {
            _page.Paragraph("The study sets no requirement, or none that a row of its results speaks of.");
        }
        else
        {
            Add(RequirementTable.Overall(_pooled));
        }

        Figures("map");
        Figures("scatter");
        Figures("effects");
        Add(RequirementTable.Points(_pooled));
        _page.Paragraph("Figures are pooled over seeds and persons: each event, each reading weighs the same. A 95th percentile cannot be pooled from rows: the mean of the runs' percentiles, weighted with their events, stands for it.");
    }

    private void WorstCases()
    {
        if (_options.WorstCases.Count == 0)
        {
            return;
        }

        bool hasFailed = !_options.WorstCases.Any(c => c.IsPointMet);
        _page.Section(hasFailed ? "Worst cases" : "Weakest runs");
        if (!hasFailed)
        {
            _page.Paragraph("Every point meets every requirement. These single runs do not, while all runs of their point together do: the weakest that were seen, not a failure.");
        }

        Add(OtherTables.WorstCases(Results.Plan, _options.WorstCases));
        Figures("worst_case");
    }

    private void Agreement()
    {
        if (_agreement.Count == 0)
        {
            return;
        }

        _page.Section("Agreement");
        Add(OtherTables.Agreement(_agreement));
        Figures("agreement");
    }

    private void Definitions()
    {
        _page.Section("Definitions and cautions");
        _page.List([
            "Sensitivity: matched / (matched + missed). Positive predictivity: matched / (matched + extra). A detection matches the true event that is closest within the window of the scoring, 150 ms; each event pairs once.",
            "Not scored: the lead-in (8 s, or 10 % of the record up to 300 s, whichever is longer), the last second, and stretches in which the signal is unusable; the detector runs through all of them.",
            "Timing errors are detection less truth, after the declared delays of the channels and what the clocks of the devices add are taken off.",
            "Every detector meets the same signals, and every point the same seeds, so differences come from what was varied.",
            .. _pooled.Requirements.Select(r => r.Definition.Key.Meaning.Split(" Not met:")[0]).Distinct(StringComparer.Ordinal).Select(m => $"Requirement: {m}"),
        ]);
        foreach (string caution in StudyFacts.Cautions)
        {
            _page.Paragraph(caution, "caution");
        }
    }

    private void Figures(string prefix)
    {
        for (int i = 0; i < _figures.Count; i++)
        {
            if (_figures[i].Name.StartsWith(prefix + "_", StringComparison.Ordinal))
            {
                _page.Figure(_vectors[i], _figures[i].Name, _figures[i].Captions);
            }
        }
    }

    private void Add(Table table)
    {
        _tables.Add(table);
        _page.Table(table);
    }
}
