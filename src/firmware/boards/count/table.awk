# SPDX-License-Identifier: MIT
# Instructions for each sample by stage, from the counts of count.c. Variables: samples (of all channels), seconds (of the stream).
{
    all[$1] += $4
    total += $4
}
END {
    order = "beats pulses ambient movement readings gate pressure pipeline fixed_point common library detector compiler_helpers memory codec session board outside"
    count = split(order, name, " ")
    printf "%-18s %16s %12s %12s\n", "stage", "instructions", "per sample", "per second"
    for (i = 1; i <= count; i++) {
        if (all[name[i]] > 0) {
            printf "%-18s %16.0f %12.1f %12.0f\n", name[i], all[name[i]], all[name[i]] / samples, all[name[i]] / seconds
            if (name[i] != "board" && name[i] != "outside" && name[i] != "session") { work += all[name[i]] }
        }
        delete all[name[i]]
    }
    for (left in all) { printf "%-18s %16.0f %12.1f %12.0f\n", left, all[left], all[left] / samples, all[left] / seconds }
    printf "%-18s %16.0f %12.1f %12.0f\n", "without waiting", work, work / samples, work / seconds
}
