// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Tests.StudyReports;

public class StudyReportTests
{
    private static StudyResults OneKey() => StudySamples.Results(
        StudySamples.Grid(3, ["ours", "other"], StudySamples.Factor(StudySamples.MuscleKey, 12.0, 6.0, 0.0, -6.0)), k => (k.Point * 7) + k.Seed + k.Detector - 2);

    private static StudyResults TwoKeys() => StudySamples.Results(
        StudySamples.Grid(2, ["ours"], StudySamples.Factor(StudySamples.MuscleKey, 12.0, 0.0), StudySamples.Factor(StudySamples.RateKey, 50.0, 90.0, 130.0)), k => k.Point - 1);

    private static StudyResults EachAlone() => StudySamples.Results(
        StudySamples.Plan(
            2, ["ours"], [StudySamples.Factor(StudySamples.MuscleKey, 6.0), StudySamples.Factor(StudySamples.RateKey, 70.0)], [[6.0, 70.0], [0.0, 70.0], [6.0, 150.0]]),
        k => k.Point * 2);

    private static StudyResults Scattered() => StudySamples.Results(
        StudySamples.Plan(
            2,
            ["ours", "other"],
            [StudySamples.Factor(StudySamples.MuscleKey, -8.0, 20.0), StudySamples.Factor(StudySamples.PerfusionKey, 0.1, 10.0) with { IsInRatios = true }],
            [[1.0, 0.2], [3.0, 5.0], [-4.0, 1.0], [17.0, 9.0]]),
        k => k.Point * 2);

    private static IEnumerable<TestCaseData> Studies()
    {
        yield return new TestCaseData(OneKey(), true, new[] { "curves_1" }).SetArgDisplayNames("one key");
        yield return new TestCaseData(OneKey(), false, new[] { "curves_1" }).SetArgDisplayNames("one key without failure points");
        yield return new TestCaseData(TwoKeys(), false, new[] { "map_1", "map_2", "map_3" }).SetArgDisplayNames("two keys");
        yield return new TestCaseData(EachAlone(), false, new[] { "effects_1", "effects_2", "effects_3" }).SetArgDisplayNames("each key alone");
        yield return new TestCaseData(Scattered(), false, new[] { "scatter_1", "scatter_2", "scatter_3" }).SetArgDisplayNames("scattered");
    }

    [TestCaseSource(nameof(Studies))]
    public void Write_Page_NeedsNothingButItself(StudyResults results, bool hasPoints, string[] figures)
    {
        using var report = new WrittenReport(results, hasPoints ? StudySamples.Points(results) : []);
        Assert.That(report.Html, Does.Not.Contain("http").And.Not.Contain("@import").And.Not.Contain("src="));
        Assert.That(Regex.Matches(report.Html, @"url\((?!#f\d+_cl_\d+\))"), Is.Empty);
        string[] references = [.. report.Page.Descendants().Attributes().Where(a => a.Name.LocalName is "href" or "src" or "data" or "action").Select(a => a.Value)];
        Assert.That(references, Is.All.StartsWith("#"));
        string[] foreign = ["script", "link", "iframe", "img", "object", "embed", "base", "form"];
        Assert.That(report.Page.Descendants().Select(e => e.Name.LocalName), Has.None.AnyOf(foreign));
    }

    // 2.71828 to 3.9 is 1.2 wide: two digits of that are one decimal.
    [Test]
    public void Write_InShort_TellsFailurePointsWithTheDigitsOfTheirInterval()
    {
        StudyResults results = OneKey();
        FailurePoint[] points = [.. StudySamples.Points(results).Select(p => p.State == FailurePointState.Found ? p with { Level = Math.PI, Interval = new(2.71828, 3.9) } : p)];
        using var report = new WrittenReport(results, points);
        string[] told = [.. report.Page.Descendants("ul").First().Elements("li").Select(l => l.Value).Where(t => t.Contains("failure point for", StringComparison.Ordinal))];

        Assert.That(told, Is.Not.Empty);
        Assert.That(told, Is.All.Contain($"): {StudySamples.MuscleKey} = 3.1 dB, 95 % interval 2.7 to 3.9"));
    }

    [TestCaseSource(nameof(Studies))]
    public void Write_Figures_AreOnThePageAndInTheFolder(StudyResults results, bool hasPoints, string[] figures)
    {
        using var report = new WrittenReport(results, hasPoints ? StudySamples.Points(results) : []);
        XElement[] onPage = [.. report.Page.Descendants("figure")];
        Assert.That(onPage.Select(f => f.Attribute("id")!.Value), Is.EqualTo(figures));
        Assert.That(onPage.Select(f => f.Elements("svg").Count()), Is.All.EqualTo(1));
        Assert.That(onPage.Select(f => f.Element("figcaption")!.Value.Length), Is.All.GreaterThan(60));
        Assert.That(report.Files.Where(f => f.StartsWith("report/figures/", StringComparison.Ordinal)), Is.EqualTo(figures.SelectMany(f => new[] { $"report/figures/{f}.png", $"report/figures/{f}.svg" })));
        foreach (string figure in figures)
        {
            using SkiaSharp.SKBitmap picture = Picture.Decode(report.Bytes($"report/figures/{figure}.png"));
            Assert.That(picture.Width, Is.EqualTo(1600));
            string[] texts = Picture.Texts(report.Bytes($"report/figures/{figure}.svg"));
            Assert.That(onPage.Single(f => f.Attribute("id")!.Value == figure).Descendants("text").Select(t => t.Value), Is.EqualTo(texts));
        }
    }

    [TestCaseSource(nameof(Studies))]
    public void Write_Ids_AreUniqueAndFound(StudyResults results, bool hasPoints, string[] figures)
    {
        using var report = new WrittenReport(results, hasPoints ? StudySamples.Points(results) : []);
        string[] ids = [.. report.Page.Descendants().Attributes("id").Select(a => a.Value)];
        Assert.That(ids, Is.Unique);
        IEnumerable<string> asked = report.Page.Descendants().Attributes("href").Select(a => a.Value[1..])
            .Concat(Regex.Matches(report.Html, @"url\(#([^)]*)\)").Select(m => m.Groups[1].Value));
        Assert.That(asked, Is.SubsetOf(ids));
    }

    [TestCaseSource(nameof(Studies))]
    public void Write_Twice_GivesTheSameBytes(StudyResults results, bool hasPoints, string[] figures)
    {
        IReadOnlyList<FailurePoint> points = hasPoints ? StudySamples.Points(results) : [];
        using var first = new WrittenReport(results, points);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            using var second = new WrittenReport(results, points);
            Assert.That(second.Files, Is.EqualTo(first.Files));
            foreach (string file in first.Files)
            {
                Assert.That(second.Bytes(file), Is.EqualTo(first.Bytes(file)), file);
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.That(first.Html, Does.Not.Contain("\r"));
        Assert.That(first.Bytes("report.html").Take(3), Is.Not.EqualTo(new byte[] { 0xEF, 0xBB, 0xBF }));
    }

    // Of every table each number on the page is the number of the file, rounded to five digits.
    [TestCaseSource(nameof(Studies))]
    public void Write_NumbersOnThePage_AreThoseOfTheFiles(StudyResults results, bool hasPoints, string[] figures)
    {
        using var report = new WrittenReport(results, hasPoints ? StudySamples.Points(results) : []);
        int compared = 0;
        foreach (string name in report.Files.Where(f => f.StartsWith("report/tables/", StringComparison.Ordinal)).Select(f => Path.GetFileNameWithoutExtension(f)))
        {
            string[][] file = report.Csv(name);
            string[][] page = report.Table(name).Rows;
            Assert.That(page, Has.Length.EqualTo(file.Length - 1), name);
            for (int row = 0; row < page.Length; row++)
            {
                // Columns that are empty on the page are left out there: the page's cells are found in order among the file's.
                int at = 0;
                // The last number of a failure point is that of its definition, which the file spells out.
                int numbers = page[row].Length - (name == "failure_points" ? 1 : 0);
                foreach (string cell in page[row].Take(numbers).Where(c => double.TryParse(c, NumberStyles.Float, CultureInfo.InvariantCulture, out _)))
                {
                    double number = double.Parse(cell, CultureInfo.InvariantCulture);
                    while (at < file[row + 1].Length && !Agrees(file[row + 1][at], number))
                    {
                        at++;
                    }

                    Assert.That(at, Is.LessThan(file[row + 1].Length), $"{name}, row {row}: {cell}");
                    at++;
                    compared++;
                }
            }
        }

        Assert.That(compared, Is.GreaterThan(40));
    }

    [Test]
    public void Write_PooledFigures_AreThoseOfTheRows()
    {
        StudyResults results = OneKey();
        using var report = new WrittenReport(results, []);
        string[] sensitivities = report.Column("points", "ecg_r_peak_sensitivity_min");
        string[] met = report.Column("points", "ecg_r_peak_sensitivity_min_met");
        for (int point = 0; point < 4; point++)
        {
            for (int detector = 0; detector < 2; detector++)
            {
                // Straight from the counts that the sample gives: 60 beats a run, three seeds.
                int lost = Enumerable.Range(0, 3).Sum(seed => Math.Max(0, (point * 7) + seed + detector - 2));
                double expected = (180 - lost) / 180.0;
                Assert.That(double.Parse(sensitivities[(point * 2) + detector], CultureInfo.InvariantCulture), Is.EqualTo(expected));
                Assert.That(met[(point * 2) + detector], Is.EqualTo(expected >= 0.99 ? "yes" : "no"));
            }
        }

        Assert.That(report.Column("requirements", "points_met")[0], Is.EqualTo("1"));
    }

    // Two records of the worked example of gross and average figures: 990 of 1000 found with 5 extra, 80 of 100 with 10 extra. Gross 1070/1100 and
    // 1070/1085; average (0.99 + 0.80)/2 and (990/995 + 80/90)/2. Source of the rule: ANSI/AAMI EC57, from memory; the ratios by hand.
    [Test]
    public void Write_Records_HaveGrossAndAverageFigures()
    {
        StudyPlan plan = StudySamples.Grid(2, ["ours"], StudySamples.Factor(StudySamples.MuscleKey, 6.0));
        StudyResults results = new(plan, [StudySamples.Row(0, 990, 10, 5, 1), StudySamples.Row(1, 80, 20, 10, 1)]);
        using var report = new WrittenReport(results, []);
        Assert.That(report.Column("records", "matched"), Is.EqualTo(new[] { "1070", "1070" }));
        double[] Numbers(string column) => [.. report.Column("records", column).Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
        Assert.That(Numbers("sensitivity_gross"), Is.All.EqualTo(1070.0 / 1100).Within(1e-15));
        Assert.That(Numbers("sensitivity_average"), Is.All.EqualTo(0.895).Within(1e-15));
        Assert.That(Numbers("positive_predictivity_gross"), Is.All.EqualTo(1070.0 / 1085).Within(1e-15));
        Assert.That(Numbers("positive_predictivity_average"), Is.All.EqualTo(((990.0 / 995) + (80.0 / 90)) / 2).Within(1e-15));
    }

    [Test]
    public void Write_FailurePoints_StandInTableSentenceAndFigure()
    {
        StudyResults results = OneKey();
        IReadOnlyList<FailurePoint> points = StudySamples.Points(results);
        using var report = new WrittenReport(results, points);
        Assert.That(report.Column("failure_points", "level"), Is.EqualTo(points.Select(p => p.Level is double l ? l.ToString("R", CultureInfo.InvariantCulture) : "")));
        Assert.That(report.Column("failure_points", "state"), Has.Member("found"));
        (string[] headings, string[][] rows) = report.Table("failure_points");
        int low = Array.IndexOf(headings, "95 % from");
        Assert.That(rows.Where(r => r[0] == "other" && r[Array.IndexOf(headings, "result")] == "found").Select(r => r[low]), Is.All.EqualTo("−∞").And.Not.Empty);
        string text = report.Page.Root!.Value;
        foreach (FailurePoint point in points)
        {
            Assert.That(text, Does.Contain(point.Definition));
            Assert.That(point.Warnings.All(w => text.Contains(w, StringComparison.Ordinal)), Is.True);
        }

        Assert.That(text, Does.Contain("not clinical evidence"));
    }

    [Test]
    public void Write_TextOfUsers_IsEscaped()
    {
        StudyPlan plan = StudySamples.Grid(1, ["<b>&\"x\"</b>"], StudySamples.Factor(StudySamples.MuscleKey, 6.0, 0.0)) with { Title = "a <i> & b" };
        StudyResults results = new(plan, [StudySamples.Row(0, 1, 0, 0, 1), StudySamples.Row(1, 0, 60, 0, 1, Verdict.Crashed, "Bell \u0007, half \uD800, whole \U0001F600 <script>")]);
        using var report = new WrittenReport(results, []);
        Assert.That(report.Page.Descendants("h1").Single().Value, Is.EqualTo("a <i> & b"));
        Assert.That(report.Table("verdicts").Rows[0][0], Is.EqualTo("<b>&\"x\"</b>"));
        Assert.That(report.Table("verdicts").Rows[0][^1], Is.EqualTo("Bell \uFFFD, half \uFFFD, whole \U0001F600 <script>"));
        Assert.That(report.Page.Descendants("script"), Is.Empty);
    }

    [Test]
    public void Write_NothingDefined_StillGivesAPage()
    {
        StudyPlan plan = StudySamples.Grid(2, ["ours"], StudySamples.Factor(StudySamples.MuscleKey, 6.0));
        StudyResults results = new(plan, [StudySamples.Row(0, 0, 0, 0, 0, Verdict.Silent, "The detector gave no mark at all.")]);
        using var undefined = new WrittenReport(results, StudySamples.Points(results));
        Assert.That(undefined.Column("points", "ecg_r_peak_sensitivity_min"), Is.EqualTo(new[] { "" }));
        Assert.That(undefined.Page.Descendants("figure").Count(), Is.EqualTo(1));
        using var nothing = new WrittenReport(new StudyResults(plan with { Requirements = [] }, []), []);
        Assert.That(nothing.Page.Descendants("figure"), Is.Empty);
        Assert.That(nothing.Page.Root!.Value, Does.Contain("0 of 2 that the points allow"));
    }

    [Test]
    public void Write_ManyRows_KeepsThemInTheFileOnly()
    {
        StudyResults results = StudySamples.Results(
            StudySamples.Grid(1, ["ours"], StudySamples.Factor(StudySamples.MuscleKey, [.. Enumerable.Range(0, 400).Select(i => (object)(24 - (i * 0.08)))])), k => k.Point / 10);
        using var report = new WrittenReport(results, []);
        Assert.That(report.Table("points").Rows, Has.Length.EqualTo(150));
        Assert.That(report.Column("points", "point"), Has.Length.EqualTo(400));
        Assert.That(report.Html, Does.Contain("250 more rows are in the file report/tables/points.csv"));
    }

    // Failure points at two values of the other key: a figure each. The study asks for the share of runs: so say the panels.
    [Test]
    public void Write_FailurePointsOfTwoKeys_HasAFigureForEachValueOfTheOther()
    {
        StudyResults results = OneKey();
        Studies.Plans.Factor rate = StudySamples.Factor(StudySamples.RateKey, 50.0, 90.0);
        StudyPlan plan = results.Plan with { FailurePoint = new FailurePointSettings { PassFraction = 0.95 } };
        FailurePoint[] points = [.. new[] { 50.0, 90.0 }.SelectMany(r => StudySamples.Points(results).Select(p => p with { Held = [(rate, r)] }))];
        using var report = new WrittenReport(new StudyResults(plan, results.Rows), points);
        XElement[] figures = [.. report.Page.Descendants("figure")];
        Assert.That(figures, Has.Length.EqualTo(2));
        Assert.That(figures[0].Descendants("text").Select(t => t.Value), Has.Some.Contains("heart.rate_bpm = 50 bpm").And.Some.StartsWith("share of runs with r peak sensitivity, ecg"));
        Assert.That(figures[1].Descendants("text").Select(t => t.Value), Has.Some.Contains("heart.rate_bpm = 90 bpm"));
        Assert.That(report.Column("failure_points", "held").Distinct(), Is.EqualTo(new[] { "heart.rate_bpm = 50 bpm", "heart.rate_bpm = 90 bpm" }));
    }

    [Test]
    public void WarmUp_Run_ChangesNoPage()
    {
        using var before = new WrittenReport(OneKey(), []);
        StudyReport.WarmUp();
        using var after = new WrittenReport(OneKey(), []);
        Assert.That(after.Html, Is.EqualTo(before.Html));
    }

    [Test]
    public void Write_Agreement_StandsInFigureAndTable()
    {
        AgreementPair[] pairs = [new(1, 60, 61), new(1, 70, 72), new(2, 80, 79), new(2, double.NaN, 5)];
        using var report = new WrittenReport(OneKey(), [], new StudyReportOptions
        {
            Agreement = [new AgreementData { Title = "heart rate", Unit = "bpm", Pairs = pairs }],
            Identity = "abc",
            DetectorIdentities = ["library 1", "other 2"],
            Notes = ["The constants were tuned on other seeds."],
        });
        Assert.That(report.Column("agreement", "pairs"), Is.EqualTo(new[] { "3" }));
        Assert.That(report.Column("agreement", "subjects"), Is.EqualTo(new[] { "2" }));
        Assert.That(double.Parse(report.Column("agreement", "bias")[0], CultureInfo.InvariantCulture), Is.EqualTo(2.0 / 3).Within(1e-15));
        Assert.That(report.Page.Descendants("figure").Select(f => f.Attribute("id")!.Value), Has.Member("agreement_1"));
        Assert.That(report.Page.Root!.Value, Does.Contain("other 2").And.Contain("The constants were tuned on other seeds.").And.Contain("study identity"));
    }

    private static bool Agrees(string exact, double shown) =>
        double.TryParse(exact, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
        && Math.Abs(number - shown) <= 6e-5 * Math.Abs(number);
}
