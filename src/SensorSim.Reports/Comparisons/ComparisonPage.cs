// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

namespace SensorSim.Reports.Comparisons;

/// <summary>Puts the page about a comparison together.</summary>
internal sealed class ComparisonPage
{
    private readonly Comparison _comparison;
    private readonly Gate? _gate;
    private readonly IReadOnlyList<StudyFigure> _figures;
    private readonly byte[][] _vectors;
    private readonly List<Table> _tables = [];
    private readonly HtmlPage _page;

    internal ComparisonPage(Comparison comparison, Gate? gate, IReadOnlyList<StudyFigure> figures, byte[][] vectors)
    {
        _comparison = comparison;
        _gate = gate;
        _figures = figures;
        _vectors = vectors;
        _page = new HtmlPage($"{Plan.Title}: {comparison.Pair.Sides[1].Label} against {comparison.Pair.Sides[0].Label}", ComparisonReport.Folder);
    }

    /// <summary>The tables of the page, for files; known once the text is made.</summary>
    internal IReadOnlyList<Table> Tables => _tables;

    private StudyPlan Plan => _comparison.Pair.Results.Plan;

    internal string Text()
    {
        _page.Section("In short");
        _page.List(InShort());
        _page.Section("What was compared");
        _page.Facts(Facts());
        _page.Section("Differences over all points");
        Add(ComparisonTables.Differences("overall", "Pooled over all points", Plan, _comparison.Overall));
        Figures("overall");
        if (_comparison.FailurePoints.Count > 0)
        {
            _page.Section("Failure points");
            Add(ComparisonTables.FailurePoints(_comparison.FailurePoints));
        }

        Figures("curves");
        if (Plan.Points.Count > 1)
        {
            _page.Section("Differences at each point");
            _page.Paragraph(ComparisonTexts.Definitions[^1], "caution");
            Figures("difference");
            Add(ComparisonTables.Differences("points", "At each point", Plan, _comparison.AtPoints));
        }

        _page.Section("Runs that differ most");
        Add(ComparisonTables.Runs(_comparison));
        _page.Section("Definitions and cautions");
        _page.List(ComparisonTexts.Definitions);
        return _page.Finish();
    }

    private IEnumerable<string> InShort()
    {
        if (_gate is not null)
        {
            yield return _gate.Worse.Count == 0 ? "Nothing got worse." : $"{Plural.Of(_gate.Worse.Count, "thing")} got worse.";
            foreach (string sentence in _gate.Worse)
            {
                yield return $"Got worse: {sentence}";
            }

            yield return $"{(_comparison.TestCount == 1 ? "1 difference is" : Numbers.Whole(_comparison.TestCount) + " differences are")} judged, together at 5 %: each pooled figure at p ≤ {Numbers.Short(Comparison.GateShare / _comparison.TestCount)}, each failure point by an interval that wide.";
        }

        foreach (PairedDifference difference in _comparison.Overall.Where(d => _comparison.IsGated(d.Figure)))
        {
            yield return $"{RequirementWords.Figure(difference.Figure.OnRow)}: {difference.Verdict.Text()}; {ComparisonTexts.Sentence(difference)}.";
        }

        foreach (FailureDifference difference in _comparison.FailurePoints)
        {
            yield return $"{RequirementWords.Figure(difference.First.Requirement)}, {difference.First.Factor.Key.Name}: {difference.Verdict.Text()}; {ComparisonTexts.Sentence(difference)}.";
        }

        yield return $"{Plural.Of(_comparison.NoLongerAnswered.Count, "run")} that the first answered the second did not; {Numbers.Whole(_comparison.NewlyAnswered.Count)} the other way round.";
        foreach (string notice in _comparison.Pair.Notices)
        {
            yield return $"Notice: {notice}.";
        }
    }

    private IEnumerable<(string Name, string Text)> Facts()
    {
        for (int i = 0; i < _comparison.Pair.Sides.Count; i++)
        {
            ComparedSide side = _comparison.Pair.Sides[i];
            string name = i == ComparedPair.First ? "first" : "second";
            yield return (name, $"{side.Label}: {side.Detector}");
            yield return ($"study of the {name}", $"{side.StudyIdentity}, program version {side.ProgramVersion}");
        }

        yield return ("scenario", Plan.Scenario.Title);
        yield return ("varied", Plan.Factors.Count == 0 ? "nothing" : string.Join(", ", Plan.Factors.Select(f => RequirementWords.Key(f.Key))));
        yield return ("runs of each", Numbers.Whole(_comparison.Pair.Results.Rows.Count / 2));
        foreach (string note in _comparison.Pair.Notes)
        {
            yield return ("note", note);
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
