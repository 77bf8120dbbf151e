// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pressure;

/// <summary>When the pulse of one beat arrives, and what that is made of: PAT = PEP + PTT, all from the R peak.</summary>
/// <param name="PatSeconds">Pulse arrival time: R peak to the foot by tangents [s].</param>
/// <param name="PepSeconds">Pre-ejection period: R peak to the opening of the aortic valve [s].</param>
/// <param name="PepFromQrsOnsetSeconds">The same from QRS onset [s].</param>
/// <param name="PttSeconds">Pulse transit time: opening of the aortic valve to the foot by tangents [s].</param>
/// <param name="Pressure">Arterial pressure at the R peak.</param>
public readonly record struct Arrival(
    double PatSeconds, double PepSeconds, double PepFromQrsOnsetSeconds, double PttSeconds, PressureState Pressure);
