// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The mains network of a scenario over time.</summary>
public sealed class MainsCoupling
{
    private const double PerKilo = 1e3;
    private const double PerPico = 1e-12;

    private readonly Course _body;
    private readonly Course _lead;
    private readonly Course _positive;
    private readonly Course _negative;
    private readonly Course _third;
    private readonly string _kind;
    private readonly double _loopGain;
    private readonly double _bodyEarthF;
    private readonly double _deviceEarthF;
    private readonly double _inputOhm;
    private readonly double _rejection;

    /// <summary>Creates the network.</summary>
    /// <param name="values">Values of the scenario.</param>
    public MainsCoupling(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        _body = values.Course(MainsKeys.BodyCouplingPf);
        _lead = values.Course(MainsKeys.LeadCouplingPf);
        _positive = values.Course(ElectrodeKeys.ImpedancePositiveKohm);
        _negative = values.Course(ElectrodeKeys.ImpedanceNegativeKohm);
        _third = values.Course(ElectrodeKeys.ImpedanceThirdKohm);
        _kind = values[ElectrodeKeys.Third];
        _loopGain = Ratio(values[ElectrodeKeys.DriveGainDb]);
        _bodyEarthF = values[MainsKeys.BodyEarthPf] * PerPico;
        _deviceEarthF = values[MainsKeys.DeviceEarthPf] * PerPico;
        _inputOhm = values[EcgAmplifierKeys.CommonModeKohm] * PerKilo;
        _rejection = Ratio(values[EcgAmplifierKeys.CmrrDb]);
        SupplyV = values[MainsKeys.SupplyV];
        FrequencyHz = values[MainsKeys.FrequencyHz];
        Courses = [_body, _lead, _positive, _negative, _third];
    }

    /// <summary>Mains voltage [V rms].</summary>
    public double SupplyV { get; }

    /// <summary>Mean mains frequency [Hz].</summary>
    public double FrequencyHz { get; }

    /// <summary>The courses of the knobs that it follows.</summary>
    public IReadOnlyList<Course> Courses { get; }

    /// <summary>Common mode between body and amplifier, all electrodes in contact, at a time [mV rms].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double CommonModeMvRms(double seconds) => 1e3 * SupplyV * At(seconds, SampleStatus.None).CommonMode(FrequencyHz).Magnitude;

    /// <summary>What the fundamental puts between the inputs, all electrodes in contact, at a time [µV peak to peak].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double PickupUvPp(double seconds) =>
        2e6 * Math.Sqrt(2.0) * SupplyV * At(seconds, SampleStatus.None).Differential(FrequencyHz).Magnitude;

    /// <summary>Whether a scenario lets the mains in.</summary>
    internal static bool IsNeeded(KeyValues values) =>
        !values.Course(MainsKeys.BodyCouplingPf).IsAlways(0) || !values.Course(MainsKeys.LeadCouplingPf).IsAlways(0);

    /// <summary>The network at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="off">Electrodes without contact.</param>
    internal MainsNetwork At(double seconds, SampleStatus off)
    {
        bool isThirdOn = _kind != "none" && (off & SampleStatus.LeadOffThird) == 0;

        // An input at its rail leaves the drive nothing to work with: the third electrode is then as good as a passive one.
        bool isDriven = _kind == "driven" && (off & (SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative)) == 0;
        return new MainsNetwork
        {
            BodyCouplingF = _body.Value(seconds) * PerPico,
            BodyEarthF = _bodyEarthF,
            DeviceEarthF = _deviceEarthF,
            LeadCouplingF = _lead.Value(seconds) * PerPico,
            PositiveOhm = (off & SampleStatus.LeadOffPositive) != 0 ? MainsNetwork.OpenOhm : _positive.Value(seconds) * PerKilo,
            NegativeOhm = (off & SampleStatus.LeadOffNegative) != 0 ? MainsNetwork.OpenOhm : _negative.Value(seconds) * PerKilo,
            GroundOhm = isThirdOn ? MainsNetwork.ThirdOhm(_third.Value(seconds) * PerKilo, isDriven ? _loopGain : 0) : MainsNetwork.OpenOhm,
            InputOhm = _inputOhm,
            Rejection = _rejection,
        };
    }

    private static double Ratio(double decibels) => PortableMath.Pow(10, decibels / 20);
}
