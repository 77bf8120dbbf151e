// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Subjects;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.Subjects;

/// <summary>Two thousand drawn people against published figures; tolerances are four standard errors unless a publication states an interval.</summary>
[TestFixture]
public sealed class PopulationTests
{
    private const int People = 2000;
    private static readonly Lazy<Population> s_people = new(() => new Population(People));

    private static Population All => s_people.Value;

    [Test]
    public void Age_And_Tone_AreEven()
    {
        // An even law from 20 to 79: mean 49.5, standard deviation sqrt((60² - 1) / 12) = 17.3 (arithmetic); each tone a sixth.
        Assert.That(All.Mean("subject.age_years"), Is.EqualTo(49.5).Within(4 * 17.3 / Math.Sqrt(People)));
        Assert.That(All.Sd("subject.age_years"), Is.EqualTo(17.32).Within(0.7));
        Assert.That(All["subject.age_years"].Min(), Is.EqualTo(20));
        Assert.That(All["subject.age_years"].Max(), Is.EqualTo(79));
        double se = Math.Sqrt(People * 5 / 36.0);
        for (int tone = 1; tone <= 6; tone++)
        {
            Assert.That(All["subject.skin_tone"].Count(t => t == tone), Is.EqualTo(People / 6.0).Within(4 * se), $"tone {tone}");
        }

        Assert.That(All.Males, Is.EqualTo(People / 2).Within(4 * Math.Sqrt(People / 4.0)));
    }

    // Heights: men 175.7, women 161.8 cm (Fryar et al. 2016, US survey 2011-2014, from memory); SD 2.85 and 2.58 inches (Vital Health Stat 11,
    // No 8, 1965, estimated). Rates: 71 and 74 bpm at 20 years and over (Ostchega et al., Natl Health Stat Rep 41, 2011); SD 11 from memory.
    // Pressures: Table 20.2 of Adv Exp Med Biol 1065:307, 2018, third source.
    [TestCase("subject.height_m", true, 1.757, 2.85 * 0.0254)]
    [TestCase("subject.height_m", false, 1.618, 2.58 * 0.0254)]
    [TestCase("heart.rate_bpm", true, 71, 11)]
    [TestCase("heart.rate_bpm", false, 74, 11)]
    [TestCase("systolic", true, 121, 13)]
    [TestCase("systolic", false, 113, 14)]
    [TestCase("pressure.diastolic_mmhg", true, 78, 9)]
    [TestCase("pressure.diastolic_mmhg", false, 73, 9)]
    public void Value_OfASex_HasThePublishedMeanAndSpread(string key, bool isMale, double mean, double sd)
    {
        double[] values = [.. All.Of(key, isMale)];
        double n = values.Length;

        Assert.That(values.Average(), Is.EqualTo(mean).Within(4 * sd / Math.Sqrt(n)));

        // Cutting at 2.5 standard deviations takes 1 % off the spread.
        Assert.That(Population.Sd(values), Is.EqualTo(sd).Within((4 * sd / Math.Sqrt(2 * n)) + (0.012 * sd)));
    }

    // Choi et al., Front Aging Neurosci 12:610626, 2020, 300 people of 19 to 69 years: ln HF = 6.833 - 0.039 age (R² 0.287), ln LF =
    // 7.197 - 0.047 age (R² 0.414); power in ms² is the square of the standard deviation in the band.
    [TestCase("heart.respiratory_variability_ms", 6.833, -0.039, 0.287)]
    [TestCase("heart.slow_variability_ms", 7.197, -0.047, 0.414)]
    public void Variability_AgainstAge_FollowsThePublishedLine(string key, double intercept, double slope, double r2)
    {
        int[] young = [.. Enumerable.Range(0, People).Where(i => All["subject.age_years"][i] < 70)];
        double[] age = [.. young.Select(i => All["subject.age_years"][i])];
        double[] lnPower = [.. young.Select(i => 2 * Math.Log(All[key][i]))];
        (double a, double b) = Population.Line(age, lnPower);
        double residual = Population.Sd(lnPower.Select((y, i) => y - a - (b * age[i])));
        double seSlope = residual / (Population.Sd(age) * Math.Sqrt(age.Length));

        Assert.That(b, Is.EqualTo(slope).Within(4 * seSlope));
        Assert.That(a + (b * 45), Is.EqualTo(intercept + (slope * 45)).Within(4 * residual / Math.Sqrt(age.Length)));
        double r = Population.Correlation(age, lnPower);
        Assert.That(r * r, Is.EqualTo(r2).Within(0.06));
    }

    // Pulse rate against SDNN: r -0.64, 95 % interval -0.781 to -0.435 (48 students of one age, PMC3743650): here at one age, by taking the
    // published lines out.
    [Test]
    public void Variability_AgainstRate_IsAsClosePublished()
    {
        double[] sdnn =
        [
            .. Enumerable.Range(0, People).Select(i => 0.5 * Math.Log(
                (All["heart.respiratory_variability_ms"][i] * All["heart.respiratory_variability_ms"][i] * Math.Exp(0.039 * All["subject.age_years"][i]))
                + (All["heart.slow_variability_ms"][i] * All["heart.slow_variability_ms"][i] * Math.Exp(0.047 * All["subject.age_years"][i])))),
        ];

        Assert.That(Population.Correlation(All["heart.rate_bpm"], sdnn), Is.InRange(-0.781, -0.435));
    }

    // Diastolic pressure rises up to about 50 years and falls after; systolic rises throughout (Wright et al., Natl Health Stat Rep 35,
    // 2011, in words; the pulse pressure widens from about 50 on, Franklin et al., Circulation 96:308, 1997, from memory).
    [Test]
    public void Pressure_AgainstAge_HasThePublishedShape()
    {
        Assert.That(All.Between("pressure.diastolic_mmhg", 40, 60), Is.GreaterThan(All.Between("pressure.diastolic_mmhg", 20, 30) + 1));
        Assert.That(All.Between("pressure.diastolic_mmhg", 40, 60), Is.GreaterThan(All.Between("pressure.diastolic_mmhg", 70, 80) + 1));
        Assert.That(All.Between("systolic", 70, 80), Is.GreaterThan(All.Between("systolic", 45, 55) + 5));
        Assert.That(All.Between("systolic", 45, 55), Is.GreaterThan(All.Between("systolic", 20, 30) + 5));
        Assert.That(All.Between("pressure.pulse_pressure_mmhg", 70, 80), Is.GreaterThan(All.Between("pressure.pulse_pressure_mmhg", 40, 50) + 8));
    }

    // Wave speed: +6 to 8 % per decade (Díaz et al., Int J Hypertens 2014:653239); elastic modulus goes with its square (Moens-Korteweg).
    // Standard error of the slope of ln speed: 0.15 / (17.3 sqrt 2000) a year, 0.2 % a decade.
    [Test]
    public void WaveSpeed_AgainstAge_RisesAsPublished()
    {
        double[] lnSpeed = [.. All["artery.elastic_modulus_kpa"].Select(e => 0.5 * Math.Log(e))];
        (_, double slope) = Population.Line(All["subject.age_years"], lnSpeed);

        Assert.That(Math.Exp(10 * slope) - 1, Is.InRange(0.06, 0.08));

        // The middle person of 40 years has the model's default: here 500 kPa.
        (double a, double b) = Population.Line(All["subject.age_years"], lnSpeed);
        Assert.That(Math.Exp(2 * (a + (40 * b))), Is.EqualTo(100).Within(4 * 100 * 0.3 / Math.Sqrt(People) * 1.2));
    }

    // Usual 5 to 12 m/s (from memory); r 0.63 with age and 0.65 with the wave speed (Millasseau et al., Clin Sci 103:371, 2002, 87 people,
    // from memory): intervals of 95 % by Fisher's z for n = 87, 0.48 to 0.75 and 0.51 to 0.76.
    [Test]
    public void StiffnessIndex_GoesWithAgeAndWaveSpeed()
    {
        double[] index = All["pulse.stiffness_index_m_per_s"];

        Assert.That(index.Count(s => s is >= 5 and <= 12), Is.GreaterThan(0.9 * People));
        Assert.That(Population.Correlation(index, All["subject.age_years"]), Is.InRange(0.48, 0.75));
        Assert.That(Population.Correlation(index, [.. All["artery.elastic_modulus_kpa"].Select(Math.Sqrt)]), Is.InRange(0.51, 0.76));
        Assert.That(All.Between("pulse.stiffness_index_m_per_s", 35, 45), Is.EqualTo(7.0).Within(0.3), "1.75 m in 0.25 s at 40 years");
    }

    // 40 to 80 % usual (from memory), rising with age (Brillante et al., Blood Press 17:116, 2008).
    [Test]
    public void ReflectionIndex_LiesInTheUsualRangeAndRises()
    {
        Assert.That(All["pulse.reflection_index_percent"].Count(r => r is >= 40 and <= 80), Is.GreaterThan(0.93 * People));
        Assert.That(Population.Correlation(All["pulse.reflection_index_percent"], All["subject.age_years"]), Is.InRange(0.2, 0.6));
    }

    // Kortekaas et al., PLoS ONE 13:e0204105, 2018: by echo from the R peak 58.5 ± 13.0 ms below 50 years and 52.4 ± 11.9 ms above.
    [TestCase(0, 50, 58.5, 13.0)]
    [TestCase(50, 100, 52.4, 11.9)]
    public void Pep_OfAnAge_HasThePublishedMeanAndSpread(double from, double below, double mean, double sd)
    {
        double[] values = [.. Enumerable.Range(0, People).Where(i => All["subject.age_years"][i] >= from && All["subject.age_years"][i] < below).Select(i => All["pep_from_r"][i])];

        Assert.That(values.Average(), Is.EqualTo(mean).Within(4 * sd / Math.Sqrt(values.Length)));
        Assert.That(Population.Sd(values), Is.EqualTo(sd).Within((4 * sd / Math.Sqrt(2.0 * values.Length)) + (0.012 * sd)));
    }

    // Lima et al., Crit Care Med 30:1210, 2002, 108 healthy adults: median 1.4 %; quartiles 0.7 and 3.0 % (from memory). The standard error of
    // a quartile of ln is 1.36 × 1.079 / sqrt 2000 = 0.033.
    [TestCase(0.25, 0.7)]
    [TestCase(0.5, 1.4)]
    [TestCase(0.75, 3.0)]
    public void PerfusionIndex_AtTheFinger_HasThePublishedQuartiles(double share, double expected)
    {
        double[] sorted = [.. All["pulse.perfusion_index_percent"].Order()];

        Assert.That(Math.Log(sorted[(int)(share * People)]), Is.EqualTo(Math.Log(expected)).Within(4 * 0.033 + 0.03));
    }

    [Test]
    public void Draws_OfDifferentTraits_AreUnrelatedWhereNothingTiesThem()
    {
        double limit = 4 / Math.Sqrt(People);
        foreach ((string a, string b) in new[] { ("subject.age_years", "subject.skin_tone"), ("heart.rate_bpm", "subject.age_years"), ("subject.skin_tone", "pep_from_r") })
        {
            Assert.That(Population.Correlation(All[a], All[b]), Is.InRange(-limit, limit), $"{a}, {b}");
        }
    }

    /// <summary>Many drawn people.</summary>
    private sealed class Population
    {
        private readonly Dictionary<string, List<double>> _values = new(StringComparer.Ordinal);
        private readonly List<bool> _isMale = [];

        public Population(int people)
        {
            for (int seed = 0; seed < people; seed++)
            {
                var values = new KeyValues();
                DrawnSubject subject = SubjectDraw.Draw(values, (ulong)seed);
                foreach (DrawnValue value in subject.Values.Where(v => v.Word.Length == 0))
                {
                    Add(value.Key.Name, value.Number);
                }

                Add("systolic", _values["pressure.diastolic_mmhg"][^1] + _values["pressure.pulse_pressure_mmhg"][^1]);

                // QRS onset lies 45 ms before R (default QRS of 90 ms); 0.4 ms less for each beat a minute above 60 (Weissler et al. 1968, from memory).
                Add("pep_from_r", _values["ejection.pep_ms"][^1] - (0.4 * (_values["heart.rate_bpm"][^1] - 60)) - 45);
                _isMale.Add(subject.Values.Single(v => v.Key.Name == "subject.sex").Word == "male");
            }
        }

        public int Males => _isMale.Count(m => m);

        public double[] this[string key] => [.. _values[key]];

        public IEnumerable<double> Of(string key, bool isMale) => _values[key].Where((_, i) => _isMale[i] == isMale);

        public double Mean(string key) => _values[key].Average();

        public double Sd(string key) => Sd(_values[key]);

        public double Between(string key, double from, double below) =>
            _values[key].Where((_, i) => _values["subject.age_years"][i] >= from && _values["subject.age_years"][i] < below).Average();

        public static double Sd(IEnumerable<double> values)
        {
            double[] all = [.. values];
            double mean = all.Average();
            return Math.Sqrt(all.Sum(v => (v - mean) * (v - mean)) / (all.Length - 1));
        }

        public static (double Intercept, double Slope) Line(double[] x, double[] y)
        {
            double slope = Correlation(x, y) * Sd(y) / Sd(x);
            return (y.Average() - (slope * x.Average()), slope);
        }

        public static double Correlation(double[] x, double[] y)
        {
            double mx = x.Average();
            double my = y.Average();
            return x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / ((x.Length - 1) * Sd(x) * Sd(y));
        }

        private void Add(string key, double value)
        {
            if (!_values.TryGetValue(key, out List<double>? list))
            {
                _values[key] = list = [];
            }

            list.Add(value);
        }
    }
}
