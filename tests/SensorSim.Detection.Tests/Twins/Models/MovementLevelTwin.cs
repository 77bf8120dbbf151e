// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Level of movement in doubles: gravity off by one pole, root of the mean square of about a second.</summary>
/// <param name="rateHz">Rate of the accelerometer [Hz].</param>
/// <param name="codesPerG">Codes for 1 g.</param>
/// <param name="gravityShift">Gravity is the mean of 2^this samples.</param>
internal sealed class MovementLevelTwin(int rateHz, int codesPerG, int gravityShift)
{
    private readonly double _gravityShare = Math.ScaleB(1, -gravityShift);
    private readonly double _meanShare = Math.ScaleB(1, -Math.ILogB(1.5 * rateHz));
    private double[]? _gravity;
    private double _meanSquare;

    /// <summary>Root mean square [mg].</summary>
    public double LevelMg => Math.Sqrt(_meanSquare);

    /// <summary>Takes the next sample of three axes.</summary>
    public void Next(int[] codes)
    {
        double[] mg = [.. codes.Select(c => 1000.0 * c / codesPerG)];
        _gravity ??= [.. mg];
        double square = 0;
        for (int axis = 0; axis < mg.Length; axis++)
        {
            double moved = mg[axis] - _gravity[axis];
            square += moved * moved;
            _gravity[axis] += moved * _gravityShare;
        }

        _meanSquare += (square - _meanSquare) * _meanShare;
    }
}
