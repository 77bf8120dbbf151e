// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Files.VectorSets;

namespace SensorSim.Files.Tests.VectorSets;

/// <summary>C headers: a compiler outside the project takes them without a word and finds the same numbers in them.</summary>
public sealed class VectorHeaderTests
{
    private const string Dump = """
        #include "rest-16.h"
        #include "rest-32.h"
        #include "rest-16.h"
        #include <stdio.h>
        static void dump(const sensorsim_vector *v)
        {
            printf("%s %lld %lld\n", v->name, (long long)v->ticks_per_second, (long long)v->end_tick);
            for (int32_t c = 0; c < v->channel_count; c++) {
                const sensorsim_vector_channel *k = &v->channels[c];
                int32_t sum = 0;
                for (int32_t i = 0; i < k->count; i++) { sum += (i + 1) * (k->codes16 != 0 ? k->codes16[i] : k->codes32[i]); }
                printf("%s %d %d %d %d %d %d %lld %s %s %d %d %d", k->name, k->role, k->rate_hz, k->ticks_per_sample, k->polarity, k->zero_code,
                    k->codes_per_unit256, (long long)k->delay256, k->unit, k->unit_per_code, k->shift, k->keep_every, sum);
                for (int32_t r = 0; r < k->run_count; r++) { printf(" %d+%d", k->runs[r].first_index, k->runs[r].count); }
                for (int32_t s = 0; s < k->status_count; s++) { printf(" %d+%d=%u", k->status[s].first, k->status[s].count, (unsigned)k->status[s].word); }
                printf("\n");
            }
        }
        int main(void)
        {
            dump(&vector_rest_16);
            dump(&SENSORSIM_VECTOR_LAST);
            return sizeof(sensorsim_vector_run) == RUN_BYTES && sizeof(sensorsim_vector_status) == STATUS_BYTES ? 0 : 1;
        }
        """;

    [Test]
    public void A_strict_compiler_reads_the_numbers_back()
    {
        using var folder = new TestFolder();
        VectorHeader narrow = Header("rest-16", 16);
        VectorHeader wide = Header("rest-32", 32);
        foreach (VectorHeader header in new[] { narrow, wide })
        {
            VectorHeaderWriter.Write(File.Create(folder[header.Name + ".h"]), header);
        }

        string source = folder.Write("dump.c", Dump);
        Run(folder, "gcc", "-std=c99", "-Wall", "-Wextra", "-pedantic", "-Wconversion", "-Werror",
            $"-DRUN_BYTES={VectorHeaderWriter.RunBytes}", $"-DSTATUS_BYTES={VectorHeaderWriter.StatusBytes}", source, "-o", folder["dump"]);
        string[] lines = Run(folder, folder["dump"]).Split('\n');

        // Sums of place times code, by hand: 1·5 + 2·(−32768) + 3·32767 = 32770; 1·0 + 2·7 = 14.
        const string Ecg = "ecg 0 250 2 1 0 7680 -5 mV 0.03333333333333333 2 1 32770 0+2 7+1 1+2=9";
        const string Infrared = "infrared 2 100 5 -1 7 8192 0 nA 0.03125 2 1 14 3+2";
        Assert.That(lines[..6], Is.EqualTo(new[] { "rest-16 500 1500", Ecg, Infrared, "rest-32 500 1500", Ecg, Infrared }));
        Assert.That(narrow.ArrayBytes, Is.EqualTo((5 * 2) + (3 * 8) + 12));
        Assert.That(wide.ArrayBytes, Is.EqualTo((5 * 4) + (3 * 8) + 12));
        string text = File.ReadAllText(folder["rest-16.h"]);
        Assert.That(text.Count(c => c > '~'), Is.Zero, "ASCII only");
        Assert.That(text, Does.Contain(" * About ? and * / done"));
    }

    private static VectorHeader Header(string name, int bits) => new()
    {
        Name = name,
        Comment = ["About é and */ done"],
        Bits = bits,
        KeepEvery = 1,
        Format = Streams.Format(),
        EndTick = 1500,
        Channels =
        [
            new VectorHeaderChannel
            {
                Role = 0, CodesPerUnit256 = 7680, Delay256 = -5, Shift = 2, Codes = [5, -32768, 32767], Runs = [(0, 2), (7, 1)], Statuses = [(1, 2, 9)],
            },
            new VectorHeaderChannel { Role = 2, CodesPerUnit256 = 8192, Delay256 = 0, Shift = 2, Codes = [0, 7], Runs = [(3, 2)], Statuses = [] },
        ],
    };

    private static string Run(TestFolder folder, string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder.Root };
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.That(process.ExitCode, Is.Zero, error);
        return output;
    }
}
