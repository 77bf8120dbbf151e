// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pressure;

/// <summary>An artery as a thin-walled elastic tube that stiffens with pressure.</summary>
/// <remarks>
/// Moens and Korteweg: speed = √(E · wall / (density · inner diameter)). Hughes et al. 1979 (from memory): E = E0 · exp(ζ · pressure), an
/// empirical law. The thin wall and the constant diameter are known to fail in human arteries (Ma et al. 2018), so pressures read
/// back from arrival times hold within this model only. Blood: 1060 kg/m³ (textbook value).
/// </remarks>
public sealed class ArteryTube
{
    private const double BloodKgPerM3 = 1060;

    private readonly double _pathM;
    private readonly double _zetaPerMmhg;
    private readonly double _speedSquaredPerKpa;

    /// <summary>Creates the artery of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    public ArteryTube(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        _pathM = ArterialPath.Metres(values);
        _zetaPerMmhg = values[ArteryKeys.ZetaPerMmhg];
        _speedSquaredPerKpa = 1000 * values[ArteryKeys.WallMm] / (BloodKgPerM3 * values[ArteryKeys.DiameterMm]);
    }

    /// <summary>Speed of the pulse wave [m/s].</summary>
    /// <param name="pressureMmhg">Pressure [mmHg].</param>
    /// <param name="modulusKpa">Elastic modulus without pressure E0 [kPa], above 0.</param>
    public double SpeedMPerS(double pressureMmhg, double modulusKpa) =>
        Math.Sqrt(_speedSquaredPerKpa * modulusKpa * PortableMath.Exp(_zetaPerMmhg * pressureMmhg));

    /// <summary>Transit time along the path [s].</summary>
    /// <param name="pressureMmhg">Pressure [mmHg].</param>
    /// <param name="modulusKpa">Elastic modulus without pressure E0 [kPa], above 0.</param>
    public double TransitSeconds(double pressureMmhg, double modulusKpa) => _pathM / SpeedMPerS(pressureMmhg, modulusKpa);

    /// <summary>The pressure that gives a transit time, in closed form [mmHg]: ln(speed² / speed² without pressure) / ζ.</summary>
    /// <param name="transitSeconds">Transit time [s], above 0.</param>
    /// <param name="modulusKpa">Elastic modulus without pressure E0 [kPa], above 0.</param>
    public double PressureMmhg(double transitSeconds, double modulusKpa)
    {
        double speed = _pathM / transitSeconds;
        return PortableMath.Log(speed * speed / (_speedSquaredPerKpa * modulusKpa)) / _zetaPerMmhg;
    }
}
