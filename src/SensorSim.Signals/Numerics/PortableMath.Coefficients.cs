// SPDX-License-Identifier: MIT
// Written by tests/SensorSim.Signals.Tests/Reference/make_tables.py; do not edit by hand.
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    // (e^r - 1 - r) / r^2, |r| <= ln2 / 128
    private const double ExpC0 = 0.4999999999998501;
    private const double ExpC1 = 0.16666666666664526;
    private const double ExpC2 = 0.041666707476689775;
    private const double ExpC3 = 0.00833333916333604;

    // ln2 / 64: 36 bits, and the rest; a whole number below 2^17 times the first is exact.
    private const double Ln2Over64Hi = 0.010830424696223417;
    private const double Ln2Over64Lo = 2.572804622327669E-14;
    private const double SixtyFourOverLn2 = 92.33248261689366;

    // (ln(1 + r) - r + r^2 / 2) / r^3, |r| <= 1/180
    private const double LogC0 = 0.3333333333333333;
    private const double LogC1 = -0.25000000000000033;
    private const double LogC2 = 0.1999999999999932;
    private const double LogC3 = -0.16666666658168178;
    private const double LogC4 = 0.14285714353740134;
    private const double LogC5 = -0.12500545366334181;
    private const double LogC6 = 0.11109662709582255;

    // ln2: a multiple of 2^-42, and the rest.
    private const double Ln2Hi = 0.6931471805598903;
    private const double Ln2Lo = 5.497923018708371E-14;

    // (sin(r) / r - 1) / r^2 in r^2, |r| <= pi / 4
    private const double SinC0 = -0.16666666666666666;
    private const double SinC1 = 0.008333333333330936;
    private const double SinC2 = -0.00019841269836740532;
    private const double SinC3 = 2.7557316093198404E-06;
    private const double SinC4 = -2.5051129896450185E-08;
    private const double SinC5 = 1.5917988979397435E-10;

    // (cos(r) - 1 + r^2 / 2) / r^4 in r^2, |r| <= pi / 4
    private const double CosC0 = 0.041666666666666664;
    private const double CosC1 = -0.0013888888888887389;
    private const double CosC2 = 2.48015872987544E-05;
    private const double CosC3 = -2.755731726587808E-07;
    private const double CosC4 = 2.087614504941318E-09;
    private const double CosC5 = -1.138254464534925E-11;

    // pi / 2 in three parts of at most 33 bits, and the rest; a whole number below 2^20 times a part is exact.
    private const double HalfPi1 = 1.5707963267341256;
    private const double HalfPi2 = 6.077100506303966E-11;
    private const double HalfPi3 = 2.0222662487111665E-21;
    private const double HalfPi4 = 8.4784276603689E-32;
    private const double TwoOverPiDouble = 0.6366197723675814;

    // pi / 2 and pi as the nearest double, and the rest.
    private const double HalfPiHi = 1.5707963267948966;
    private const double HalfPiLo = 6.123233995736766E-17;

    // 2 pi, and the rest.
    private const double TwoPiHi = 6.283185307179586;
    private const double TwoPiLo = 2.4492935982947064E-16;

    // (sin(2 pi f) / f - 2 pi) / f^2 in f^2, |f| <= 1/8
    private const double TurnSinC0 = -41.341702240399755;
    private const double TurnSinC1 = 81.60524927605158;
    private const double TurnSinC2 = -76.70585973555119;
    private const double TurnSinC3 = 42.05868916660875;
    private const double TurnSinC4 = -15.09405300801843;
    private const double TurnSinC5 = 3.7863999728311555;

    // (cos(2 pi f) - 1) / f^2 in f^2, |f| <= 1/8
    private const double TurnCosC0 = -19.739208802178716;
    private const double TurnCosC1 = 64.93939402266824;
    private const double TurnCosC2 = -85.45681720664355;
    private const double TurnCosC3 = 60.24464135262532;
    private const double TurnCosC4 = -26.426253265343973;
    private const double TurnCosC5 = 7.903206254195357;
    private const double TurnCosC6 = -1.6990191035198574;

    // (atan(u) / u - 1) / u^2 in u^2, |u| <= 1/16
    private const double AtanC0 = -0.3333333333333332;
    private const double AtanC1 = 0.19999999999825865;
    private const double AtanC2 = -0.14285713929313532;
    private const double AtanC3 = 0.11110855697481031;
    private const double AtanC4 = -0.09016125949161023;
}
