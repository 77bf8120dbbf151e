// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Scenarios.Subjects;

/// <summary>Draws a person and gives every value to its key that the scenario does not set itself.</summary>
/// <remarks>
/// Each value has a source of randomness of its own, so setting one key changes no other draw; what depends on a value follows the one
/// that the scenario sets. Values are rounded: what is printed is what is used.
/// </remarks>
public sealed class SubjectDraw
{
    private const double ShortestRrMs = 240;

    private readonly KeyValues _values;
    private readonly List<DrawnValue> _drawn = [];

    private SubjectDraw(KeyValues values) => _values = values;

    /// <summary>Draws a person.</summary>
    /// <param name="values">Values of the scenario; what is drawn is added.</param>
    /// <param name="seed">Seed of the person.</param>
    public static DrawnSubject Draw(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        var draw = new SubjectDraw(values);
        draw.All(seed);
        return new DrawnSubject(seed, draw._drawn);
    }

    private void All(ulong seed)
    {
        double age = Number(SubjectKeys.AgeYears, 0, SubjectLaws.AgeYears(new KeyedRandom(seed, "subject.age_years").Uniform(0)));
        bool isMale = Word(SubjectKeys.Sex, new KeyedRandom(seed, "subject.sex").Uniform(0) < 0.5 ? "female" : "male") == "male";
        Number(SubjectKeys.HeightM, 2, SubjectLaws.HeightM(isMale, Z(new KeyedRandom(seed, "subject.height_m"))));
        Number(SubjectKeys.SkinTone, 0, SubjectLaws.SkinTone(new KeyedRandom(seed, "subject.skin_tone").Uniform(0)));

        double zRate = Z(new KeyedRandom(seed, "subject.rate_bpm"));
        double rate = Number(HeartKeys.RateBpm, 1, SubjectLaws.HeartRateBpm(isMale, zRate));
        Variability(
            rate,
            SubjectLaws.RespiratoryVariabilityMs(age, zRate, Z(new KeyedRandom(seed, "subject.respiratory_variability_ms"))),
            SubjectLaws.SlowVariabilityMs(age, zRate, Z(new KeyedRandom(seed, "subject.slow_variability_ms"))));

        double zDiastolic = Z(new KeyedRandom(seed, "subject.diastolic_mmhg"));
        double diastolic = SubjectLaws.DiastolicMmhg(isMale, age, zDiastolic);
        double systolic = SubjectLaws.SystolicMmhg(isMale, age, zDiastolic, Z(new KeyedRandom(seed, "subject.systolic_mmhg")));
        diastolic = Number(PressureKeys.DiastolicMmhg, 1, diastolic);
        Number(PressureKeys.PulsePressureMmhg, 1, Math.Max(20, systolic - diastolic));

        double zSpeed = Z(new KeyedRandom(seed, "subject.wave_speed"));
        double speed = SubjectLaws.SpeedRatio(age, zSpeed);
        Number(ArteryKeys.ElasticModulusKpa, 1, ArteryKeys.ElasticModulusKpa.Default * speed * speed);

        // The person's arteries count only where the arrival follows from them.
        if (!_values.IsSet(PulseKeys.ArrivalMs))
        {
            Word(ArrivalKeys.From, "pressure");
        }

        Number(PulseKeys.StiffnessIndexMPerS, 2, SubjectLaws.StiffnessIndexMPerS(age, zSpeed, Z(new KeyedRandom(seed, "subject.stiffness_index"))));
        Number(PulseKeys.ReflectionIndexPercent, 1, SubjectLaws.ReflectionIndexPercent(age, Z(new KeyedRandom(seed, "subject.reflection_index"))));
        Number(PulseKeys.PerfusionIndexPercent, 2, SubjectLaws.PerfusionIndexPercent(_values[SiteKeys.Site], Z(new KeyedRandom(seed, "subject.perfusion_index"))));

        // The key counts from the QRS onset, half a QRS before the R peak, and holds at 60 bpm.
        double pep = SubjectLaws.PepFromRMs(age, Z(new KeyedRandom(seed, "subject.pep_ms")));
        double byRate = _values[EjectionKeys.PepSlopeMsPerBpm] * (rate - 60);
        Number(EjectionKeys.PepMs, 1, pep + (_values[EcgKeys.QrsMs] / 2) - byRate);
    }

    private static double Z(KeyedRandom random) => Math.Clamp(random.Normal(0), -SubjectLaws.LargestZ, SubjectLaws.LargestZ);

    // What is drawn must leave every RR interval possible at three standard deviations, like what is set by hand.
    private void Variability(double rate, double respiratory, double slow)
    {
        // A scenario that asks for figures of variability gets its bands from them.
        if (_values.IsSet(HeartKeys.SdnnMs))
        {
            return;
        }

        bool drawsRespiratory = !_values.IsSet(HeartKeys.RespiratoryVariabilityMs);
        bool drawsSlow = !_values.IsSet(HeartKeys.SlowVariabilityMs);
        double room = Math.Max(0, (60000 / rate) - ShortestRrMs) / 3;
        double given = (drawsRespiratory ? 0 : Square(_values[HeartKeys.RespiratoryVariabilityMs]))
            + (drawsSlow ? 0 : Square(_values[HeartKeys.SlowVariabilityMs]))
            + Square(_values[HeartKeys.DriftVariabilityMs]);
        double drawn = (drawsRespiratory ? Square(respiratory) : 0) + (drawsSlow ? Square(slow) : 0);
        double left = Math.Max(0, Square(room) - given);
        double factor = drawn > left ? Math.Sqrt(left / drawn) : 1;
        Number(HeartKeys.RespiratoryVariabilityMs, 1, respiratory * factor, Math.Floor);
        Number(HeartKeys.SlowVariabilityMs, 1, slow * factor, Math.Floor);
    }

    private static double Square(double x) => x * x;

    private double Number(NumberKey key, int decimals, double value) => Number(key, decimals, value, Math.Round);

    private double Number(NumberKey key, int decimals, double value, Func<double, double> round)
    {
        if (!_values.IsSet(key))
        {
            double scale = decimals switch
            {
                0 => 1,
                1 => 10,
                _ => 100,
            };
            double number = Math.Clamp(round(value * scale) / scale, key.Minimum, key.Maximum);
            _values.Set(key, number);
            _drawn.Add(new DrawnValue(key, number, ""));
        }

        return _values[key];
    }

    private string Word(ChoiceKey key, string word)
    {
        if (!_values.IsSet(key))
        {
            _values.Set(key, word);
            _drawn.Add(new DrawnValue(key, double.NaN, word));
        }

        return _values[key];
    }
}
