// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Optics;

/// <summary>What the pressure of the sensor on the skin does to pulse and light.</summary>
/// <remarks>
/// The pulse is small under a loose sensor, highest at 35 mmHg and gone when the vessels are closed: u (1 − u)³ with u the pressure over
/// 140 mmHg, whose top lies at a quarter of that. Best pressures of 35 to 48 mmHg on a phantom (Sensors 21:8421, 2021) and from 20 to 30 mmHg
/// up to the diastolic pressure on the finger (Sirkia, Biomed Eng Adv 7:100123, 2024). Steady light grows as blood is pressed out, by a fifth
/// when all of it is gone. The shapes and the fifth are choices of this project.
/// </remarks>
public static class ContactPressure
{
    /// <summary>Pressure of the highest pulse [mmHg].</summary>
    public const double BestMmhg = 35;

    /// <summary>Pressure from which on there is no pulse [mmHg].</summary>
    public const double ClosingMmhg = 140;

    private const double LightGain = 0.2;

    /// <summary>Pulse height over that at the best pressure: 0 to 1; 1 where no pressure is modelled.</summary>
    /// <param name="mmhg">Contact pressure [mmHg]; 0: not modelled.</param>
    public static double PulseFactor(double mmhg)
    {
        if (mmhg == 0)
        {
            return 1;
        }

        double u = Math.Min(1, mmhg / ClosingMmhg);
        double open = 1 - u;
        return u * (open * open * open) / 0.10546875; // 1/4 · (3/4)³
    }

    /// <summary>Steady light over that at the best pressure: 0.92 to 1.10; 1 where no pressure is modelled.</summary>
    /// <param name="mmhg">Contact pressure [mmHg]; 0: not modelled.</param>
    public static double LightFactor(double mmhg) => mmhg == 0 ? 1 : Pressed(mmhg) / Pressed(BestMmhg);

    private static double Pressed(double mmhg)
    {
        double u = Math.Min(1, mmhg / ClosingMmhg);
        return 1 + (LightGain * u * (2 - u));
    }
}
