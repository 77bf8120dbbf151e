// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Pressure;

/// <summary>Plans the arrival of each beat's pulse. Everything is taken at the R peak.</summary>
/// <remarks>
/// <para>From the knob: PAT = pulse.arrival_ms + spread · normal draw of the beat; PTT is what the pre-ejection period leaves of it.</para>
/// <para>From pressure: PTT = path / wave speed at the pressure + spread · the same draw; PAT = PEP + PTT.</para>
/// <para>
/// PEP from the R peak is held at 10 ms at least, PTT between 10 and 600 ms; where the knob leaves less room, PEP gives way.
/// <see cref="ArrivalLimits"/> says which knobs come near to that.
/// </para>
/// </remarks>
public sealed class ArrivalModel
{
    /// <summary>Shortest pre-ejection period from the R peak [s].</summary>
    public const double ShortestPepSeconds = 0.01;

    /// <summary>Shortest transit time [s].</summary>
    public const double ShortestPttSeconds = 0.01;

    /// <summary>Longest transit time [s].</summary>
    public const double LongestPttSeconds = 0.6;

    private readonly PressureModel _pressure;
    private readonly EjectionModel _ejection;
    private readonly ArteryTube _tube;
    private readonly KeyedRandom _draws;
    private readonly Course _arrivalMs;
    private readonly Course _spreadMs;
    private readonly Course _modulusKpa;
    private readonly bool _isFromPressure;
    private readonly bool _isByMean;

    /// <summary>Creates the arrivals of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="pressure">The body's pressure.</param>
    public ArrivalModel(KeyValues values, ulong seed, PressureModel pressure)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(pressure);
        _pressure = pressure;
        _ejection = new EjectionModel(values, seed);
        _tube = new ArteryTube(values);
        _draws = new KeyedRandom(seed, "pulse.arrival");
        _arrivalMs = values.Course(PulseKeys.ArrivalMs);
        _spreadMs = values.Course(PulseKeys.ArrivalSpreadMs);
        _modulusKpa = values.Course(ArteryKeys.ElasticModulusKpa);
        _isFromPressure = values[ArrivalKeys.From] == "pressure";
        _isByMean = values[ArteryKeys.Pressure] == "mean";
    }

    /// <summary>The arrival of a beat's pulse.</summary>
    /// <param name="beatId">Number of the beat.</param>
    /// <param name="rSeconds">Its true R peak [s].</param>
    /// <param name="qrsOnsetToRSeconds">QRS onset to R peak [s].</param>
    /// <param name="rateBpm">Heart rate that the pre-ejection period follows [bpm].</param>
    public Arrival Plan(long beatId, double rSeconds, double qrsOnsetToRSeconds, double rateBpm) =>
        Plan(beatId, rSeconds, qrsOnsetToRSeconds, rateBpm, _pressure.At(rSeconds));

    /// <summary>The arrival of a beat's pulse at the R peak of which the depth of breathing is known.</summary>
    internal Arrival Plan(long beatId, double rSeconds, double qrsOnsetToRSeconds, double rateBpm, double depth) =>
        Plan(beatId, rSeconds, qrsOnsetToRSeconds, rateBpm, _pressure.At(rSeconds, depth));

    private Arrival Plan(long beatId, double rSeconds, double qrsOnsetToRSeconds, double rateBpm, in PressureState pressure)
    {
        double jitter = _spreadMs.Value(rSeconds) * 1e-3 * _draws.Normal(beatId);
        double pep = Math.Max(ShortestPepSeconds, _ejection.FromQrsOnsetSeconds(rSeconds, rateBpm) - qrsOnsetToRSeconds);
        double pat;
        double ptt;
        if (_isFromPressure)
        {
            double driving = _isByMean ? pressure.MeanMmhg : pressure.DiastolicMmhg;
            double modulus = Math.Max(ArteryKeys.ElasticModulusKpa.Minimum, _modulusKpa.Value(rSeconds));
            double transit = _tube.TransitSeconds(driving, modulus) + jitter;
            ptt = Math.Max(ShortestPttSeconds, Math.Min(LongestPttSeconds, transit));
            pat = pep + ptt;
        }
        else
        {
            pat = (_arrivalMs.Value(rSeconds) * 1e-3) + jitter;
            pep = Math.Min(pep, pat - ShortestPttSeconds);
            ptt = pat - pep;
        }

        return new Arrival(pat, pep, pep + qrsOnsetToRSeconds, ptt, pressure);
    }
}
