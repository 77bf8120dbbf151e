// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Electrodes;

/// <summary>How the mains gets into the ECG: from the capacitances about body, device and leads to the voltage between the inputs.</summary>
/// <remarks>
/// <para>Mains, through <see cref="BodyCouplingF"/>, to the body; from there to earth through <see cref="BodyEarthF"/>, and through the third
/// electrode into the amplifier's ground and on to earth through <see cref="DeviceEarthF"/>. What drops between body and amplifier's
/// ground is the common mode. Between them lies Z = the third electrode (passive), that over (1 + loop gain) (driven), or nothing; in parallel
/// always both inputs, half of their common-mode impedance.</para>
/// <para>Signal comes of it by unequal electrodes, Zc/(Zc + Z₊) − Zc/(Zc + Z₋), and by the amplifier's own limited rejection, taken a quarter of a
/// period away from that, so that the two never cancel. Currents into the leads make a voltage across unequal electrodes besides.</para>
/// <para>Impedances count as resistances of the same size at every harmonic; capacitances do not, so harmonics of a capacitive current rise
/// with their number, as on a body held by its third electrode.</para>
/// <para>Source: Huhta and Webster, IEEE Trans Biomed Eng 20:91, 1973; Metting van Rijn et al., Med Biol Eng Comput 28:389, 1990.</para>
/// </remarks>
internal readonly record struct MainsNetwork
{
    /// <summary>An electrode without contact [Ω].</summary>
    public const double OpenOhm = 1e13;

    /// <summary>Mains to body [F].</summary>
    public required double BodyCouplingF { get; init; }

    /// <summary>Body to earth [F].</summary>
    public required double BodyEarthF { get; init; }

    /// <summary>Amplifier's ground to earth [F].</summary>
    public required double DeviceEarthF { get; init; }

    /// <summary>Mains to each lead [F].</summary>
    public required double LeadCouplingF { get; init; }

    /// <summary>Electrode on the positive input [Ω].</summary>
    public required double PositiveOhm { get; init; }

    /// <summary>Electrode on the negative input [Ω].</summary>
    public required double NegativeOhm { get; init; }

    /// <summary>From the body to the amplifier's ground by the third electrode [Ω]; see <see cref="ThirdOhm"/>.</summary>
    public required double GroundOhm { get; init; }

    /// <summary>Common-mode impedance of each input [Ω].</summary>
    public required double InputOhm { get; init; }

    /// <summary>Rejection of the amplifier alone, as a ratio.</summary>
    public required double Rejection { get; init; }

    /// <summary>What a third electrode amounts to.</summary>
    /// <param name="ohm">Its impedance [Ω].</param>
    /// <param name="loopGain">Loop gain with which it is driven; 0: passive.</param>
    public static double ThirdOhm(double ohm, double loopGain) => ohm / (1 + loopGain);

    /// <summary>Common mode between body and amplifier's ground for each volt of the mains.</summary>
    /// <param name="hertz">Frequency, above 0 [Hz].</param>
    public Phasor CommonMode(double hertz)
    {
        double angular = 2 * Math.PI * hertz;
        var one = new Phasor(1, 0);
        var device = new Phasor(0, angular * DeviceEarthF);
        double ground = Parallel(GroundOhm, 0.5 * InputOhm);
        Phasor share = one + (ground * device);
        Phasor body = new Phasor(0, angular * BodyCouplingF) / (new Phasor(0, angular * (BodyCouplingF + BodyEarthF)) + (device / share));
        return body * (ground * device) / share;
    }

    /// <summary>Voltage between the inputs for each volt of the mains.</summary>
    /// <param name="hertz">Frequency, above 0 [Hz].</param>
    public Phasor Differential(double hertz)
    {
        double unequal = InputOhm / (InputOhm + PositiveOhm) * ((NegativeOhm - PositiveOhm) / (InputOhm + NegativeOhm));
        double across = Parallel(PositiveOhm, InputOhm) - Parallel(NegativeOhm, InputOhm);
        var lead = new Phasor(0, 2 * Math.PI * hertz * LeadCouplingF * across);
        return (CommonMode(hertz) * new Phasor(unequal, 1 / Rejection)) + lead;
    }

    private static double Parallel(double a, double b) => a / (a + b) * b;
}
