// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Movement;

/// <summary>Acceleration along the three axes at four times.</summary>
internal struct AxesLanes
{
    public AxesLanes(Axes all)
    {
        X = Vector256.Create(all.X);
        Y = Vector256.Create(all.Y);
        Z = Vector256.Create(all.Z);
    }

    /// <summary>Forward [g].</summary>
    public Vector256<double> X { get; private set; }

    /// <summary>To the left [g].</summary>
    public Vector256<double> Y { get; private set; }

    /// <summary>Up [g].</summary>
    public Vector256<double> Z { get; private set; }

    /// <summary>Sets one of the four.</summary>
    public void Set(int lane, Axes all)
    {
        X = X.WithElement(lane, all.X);
        Y = Y.WithElement(lane, all.Y);
        Z = Z.WithElement(lane, all.Z);
    }

    /// <summary>Adds factors times one acceleration.</summary>
    public void Add(Vector256<double> factors, Axes all)
    {
        X += factors * all.X;
        Y += factors * all.Y;
        Z += factors * all.Z;
    }

    /// <summary>This and the difference of two others, along a direction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly Vector256<double> Along(Axes direction, in AxesLanes plus, in AxesLanes minus) =>
        (((X + (plus.X - minus.X)) * direction.X) + ((Y + (plus.Y - minus.Y)) * direction.Y)) + ((Z + (plus.Z - minus.Z)) * direction.Z);

    /// <summary>Turned about an axis of length 1 (Rodrigues' formula), each by its own angle.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly AxesLanes Turned(Axes axis, Vector256<double> sin, Vector256<double> cos)
    {
        Vector256<double> along = (Vector256<double>.One - cos) * (((X * axis.X) + (Y * axis.Y)) + (Z * axis.Z));
        return new AxesLanes
        {
            X = ((cos * X) + (sin * ((Z * axis.Y) - (Y * axis.Z)))) + (along * axis.X),
            Y = ((cos * Y) + (sin * ((X * axis.Z) - (Z * axis.X)))) + (along * axis.Y),
            Z = ((cos * Z) + (sin * ((Y * axis.X) - (X * axis.Y)))) + (along * axis.Z),
        };
    }
}
