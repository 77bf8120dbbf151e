// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Acquisition;

/// <summary>The rules of unusable stretches written down a second time, over a whole record with every sample at hand.</summary>
internal static class WatchOracle
{
    private const SampleStatus Electrodes = SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative;
    private const SampleStatus OutOfRange = SampleStatus.Saturated | SampleStatus.OverRange;

    /// <summary>Stretches of a channel as text, by kind and begin.</summary>
    public static string[] Text(ChannelName channel, int rateHz, ushort[] status)
    {
        SampleStatus[] flags = [.. status.Select(s => (SampleStatus)(s & 0xFF))];
        List<int> leadOff = [];
        List<int> noContact = [];
        List<int> saturated = [];
        for (int i = 0; i < flags.Length; i++)
        {
            bool recovers = leadOff.Count > 0 && IsNear(leadOff[^1], i, rateHz);
            if ((flags[i] & Electrodes) != 0)
            {
                leadOff.Add(i);
            }
            else if ((flags[i] & SampleStatus.NoContact) != 0)
            {
                noContact.Add(i);
            }
            else if ((flags[i] & OutOfRange) != 0)
            {
                (recovers ? leadOff : saturated).Add(i);
            }
        }

        return
        [
            .. Runs(leadOff, 0).Select(r => Line(AcquisitionKind.UnusableLeadOff, r)),
            .. Runs(saturated, 0.1).Select(r => Line(AcquisitionKind.UnusableSaturated, r)),
            .. Runs(noContact, 0).Select(r => Line(AcquisitionKind.UnusableNoContact, r)),
        ];

        string Line(AcquisitionKind kind, (int First, int Last) run) =>
            $"{channel} {kind} {run.First * 1_000_000_000L / rateHz} {(run.Last + 1) * 1_000_000_000L / rateHz}";

        IEnumerable<(int First, int Last)> Runs(List<int> samples, double leastSeconds)
        {
            for (int a = 0; a < samples.Count;)
            {
                int b = a;
                while (b + 1 < samples.Count && IsNear(samples[b], samples[b + 1], rateHz))
                {
                    b++;
                }

                if ((b + 1 - a) / (double)rateHz >= leastSeconds)
                {
                    yield return (samples[a], samples[b]);
                }

                a = b + 1;
            }
        }
    }

    // Within a quarter of a second; neighbours always.
    private static bool IsNear(int a, int b, int rateHz) => b - a == 1 || (b - a) * 4 <= rateHz;
}
