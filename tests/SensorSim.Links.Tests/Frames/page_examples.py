# SPDX-License-Identifier: MIT
"""Reads the worked examples of docs/link-protocol.md with the codec in Python and makes them again. Argument: root of the source tree."""
import os
import re
import sys

root = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(root, "docs", "examples", "process", "python"))
import sensorsim_link as link  # noqa: E402

text = open(os.path.join(root, "docs", "link-protocol.md"), encoding="utf-8").read()
page = {name: bytes.fromhex(data) for name, data in re.findall(r"```frame ([a-z]+)\n([0-9A-F \n]+)```", text)}
form = link.Format()
form.take(link.Reader().take(page["format"])[0].payload)


def again(frame):
    p = frame.payload
    return {
        link.HELLO: lambda: link.pack_hello(link.unpack_hello(p)),
        link.FORMAT: lambda: form.pack()[0],
        link.SETUP: lambda: link.pack_items(link.unpack_items(p)),
        link.START: lambda: link.pack_tick(link.unpack_tick(p)),
        link.STOP: lambda: link.pack_tick(link.unpack_tick(p)),
        link.ASK: lambda: b"",
        link.CAPTURE: link.pack_capture,
        link.SAMPLES: lambda: link.pack_samples(link.unpack_samples(p, form), form),
        link.SETTING: lambda: link.pack_setting(link.unpack_setting(p)),
        link.ABOUT: lambda: link.pack_about(link.unpack_about(p)),
        link.ACCEPTED: lambda: link.pack_accepted(link.unpack_accepted(p)),
        link.PROGRESS: lambda: link.pack_progress(link.unpack_progress(p)),
        link.MARKS: lambda: link.pack_marks(link.unpack_marks(p, 2)),
        link.REQUEST: lambda: link.pack_setting(link.unpack_setting(p)),
        link.LOG: lambda: link.pack_log(link.unpack_log(p)),
        link.TROUBLE: lambda: link.pack_trouble(link.unpack_trouble(p)),
        link.STOPPED: lambda: link.pack_progress(link.unpack_progress(p)),
        link.FIGURES: lambda: link.pack_items(link.unpack_items(p)),
    }[frame.type]()


for name, wire in page.items():
    reader = link.Reader()
    frames = [frame for at in range(len(wire)) for frame in reader.take(wire[at:at + 1])]
    if len(frames) != 1 or reader.damaged or getattr(link, name.upper()) != frames[0].type:
        sys.exit(f"{name}: {frames}")
    made = link.Writer(frames[0].sequence).frame(frames[0].type, again(frames[0]))
    if made != wire:
        sys.exit(f"{name}: {made.hex(' ')} instead of {wire.hex(' ')}")

print(f"{len(page)} examples read and made again")
