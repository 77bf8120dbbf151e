# SPDX-License-Identifier: MIT
# From the linker's map to the map of count.c: address, size, group, name. The group is the stage: the folder of the source file.
function group_of(file) {
    if (file ~ /libgcc\.a/) return "compiler_helpers"
    if (file ~ /firmware\/library\//) { sub(/^.*firmware\/library\//, "", file); return file ~ /\// ? substr(file, 1, index(file, "/") - 1) : "library" }
    if (file ~ /link\//) return "codec"
    if (file ~ /session\//) return "session"
    if (file ~ /adapter\//) return "adapter"
    if (file ~ /example\//) return "detector"
    if (file ~ /memory\.o$/) return "memory"
    return "board"
}
function give(section, address, size, file,    name) {
    if (size ~ /^0x0*$/) return
    name = section
    sub(/^\.text\.?(unlikely\.|hot\.|startup\.)?/, "", name)
    if (name == "") { name = file; sub(/^.*[\/(]/, "", name); sub(/\.o\)?$/, "", name) }
    sub(/^0x/, "", address); sub(/^0x/, "", size)
    print address, size, group_of(file), name
}
# Sections before the memory map were thrown away.
/^Linker script and memory map/ { begun = 1 }
!begun { next }
/^ \.text/ && NF == 1 { pending = $1; next }
pending != "" && /^ +0x/ { give(pending, $1, $2, $3); pending = ""; next }
/^ \.text/ && NF >= 4 { give($1, $2, $3, $4) }
{ pending = "" }
