// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Tests.Statistics;

/// <summary>Data sets of published worked examples.</summary>
internal static class PublishedData
{
    // Bland and Altman, Lancet i:307-310, 1986: peak flow of 17 subjects [l/min], as reprinted in later work.
    public static readonly double[] Wright1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
    public static readonly double[] Wright2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
    public static readonly double[] Mini1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
    public static readonly double[] Mini2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];

    // Bland and Altman, Stat Methods Med Res 8:135-160, 1999, table 4: cardiac output of 12 subjects by two methods [l/min] (from memory; the published
    // variances within subjects, 0.1072 and 0.1379, come out of it).
    public static readonly (double Rv, double Ic)[][] CardiacOutput =
    [
        [(7.83, 6.57), (7.42, 5.62), (7.89, 6.90), (7.12, 6.57), (7.88, 6.35)],
        [(6.16, 4.06), (7.26, 4.29), (6.71, 4.26), (6.54, 4.09)],
        [(4.75, 4.71), (5.24, 5.50), (4.86, 5.08), (4.78, 5.02), (6.05, 6.01), (5.42, 5.67)],
        [(4.21, 4.14), (3.61, 4.20), (3.72, 4.61), (3.87, 4.68), (3.92, 5.04)],
        [(3.13, 3.03), (2.98, 2.86), (2.85, 2.77), (3.17, 2.46), (3.09, 2.32), (3.12, 2.43)],
        [(5.92, 5.90), (6.42, 5.81), (5.92, 5.70), (6.27, 5.76)],
        [(7.13, 5.09), (6.62, 4.63), (6.58, 4.61), (6.93, 5.09)],
        [(4.54, 4.72), (4.81, 4.61), (5.11, 4.36), (5.29, 4.20), (5.39, 4.36), (5.57, 4.20)],
        [(4.48, 3.17), (4.92, 3.12), (3.97, 2.96)],
        [(4.22, 4.35), (4.65, 4.62), (4.74, 3.16), (4.44, 3.53), (4.50, 3.53)],
        [(6.78, 7.20), (6.07, 6.09), (6.52, 7.00), (6.42, 7.10), (6.41, 7.40), (5.76, 6.80)],
        [(5.06, 4.50), (4.72, 4.20), (4.90, 3.80), (4.80, 3.80), (4.90, 4.20), (5.10, 4.50)],
    ];

    // Efron and Tibshirani, An Introduction to the Bootstrap, 1993: spatial test A, and the law school data.
    public static readonly double[] Spatial =
        [48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41];

    public static readonly double[] Lsat = [576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594];
    public static readonly double[] Gpa = [3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96];

    public static double[] Minus(this double[] first, double[] second) => [.. first.Zip(second, (a, b) => a - b)];

    public static double[] MeanWith(this double[] first, double[] second) => [.. first.Zip(second, (a, b) => (a + b) / 2)];

    public static double[][] PairsWith(this double[] first, double[] second) => [.. first.Zip(second, (a, b) => new[] { a, b })];
}
