# SPDX-License-Identifier: MIT
# Instructions for each sample by stage, from the counts of count.c. Variable: samples (of all channels together).
function row(name, value) { printf "%-18s %16.0f %12.1f\n", name, value, (samples > 0 ? value / samples : 0) }
{
    all[$1] += $4
    total += $4
}
END {
    order = "beats pulses ambient movement readings gate pressure pipeline fixed_point common library detector compiler_helpers memory codec session board outside"
    count = split(order, name, " ")
    printf "%-18s %16s %12s\n", "stage", "instructions", "per sample"
    # The codec comes last of what counts as work; all before it, with compiler's helpers and memory functions, is the library or the detector.
    for (i = 1; i <= count; i++) {
        if (all[name[i]] > 0) {
            row(name[i], all[name[i]])
            if (name[i] != "board" && name[i] != "outside" && name[i] != "session") {
                work += all[name[i]]
                if (name[i] != "codec") { detector += all[name[i]] }
            }
        }
        delete all[name[i]]
    }
    for (left in all) { row(left, all[left]) }
    # The session's and the board's own loops also run while there is nothing to do, so their counts are no figure of work.
    row("library in all", detector)
    row("library and codec", work)
}
