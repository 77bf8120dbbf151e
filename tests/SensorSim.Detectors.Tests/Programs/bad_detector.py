# SPDX-License-Identifier: MIT
"""A detector that behaves badly after three seconds of samples, or at its start: python3 bad_detector.py FOLDER_OF_SENSORSIM_BOARD BEHAVIOUR."""
import os
import signal
import sys
import time

sys.path.insert(0, sys.argv[1])
import sensorsim_board  # noqa: E402
import sensorsim_link as link  # noqa: E402

BEHAVIOUR = sys.argv[2]


class Bad:
    name = f"bad {BEHAVIOUR} 1.0"

    def set(self, items):
        if BEHAVIOUR != "takes_setup":
            raise ValueError("no setup here")
        self.items = [(i.item, i.index, i.value) for i in items]

    def start(self, form):
        if BEHAVIOUR == "refuses":
            raise ValueError("The stream has no smell; bad needs it.")
        self._ticks = form.ticks_per_second
        self._end = 0

    def take(self, samples):
        begin, self._end = self._end, samples.begin_tick + samples.ticks
        if begin < 3 * self._ticks <= self._end:
            self._misbehave()
        if begin // self._ticks != self._end // self._ticks and BEHAVIOUR in ("good", "takes_setup"):
            return [link.Mark(0, 0, 1, self._end)]
        return []

    def flush(self):
        if BEHAVIOUR == "hangs_at_the_end":
            time.sleep(1000)
        return []

    @staticmethod
    def _misbehave():
        if BEHAVIOUR == "exits":
            os._exit(7)
        if BEHAVIOUR == "ends":
            os._exit(0)
        if BEHAVIOUR == "segfault":
            os.kill(os.getpid(), signal.SIGSEGV)
            time.sleep(1000)
        if BEHAVIOUR == "hangs":
            time.sleep(1000)
        if BEHAVIOUR == "raises":
            raise RuntimeError("this detector is tired")
        if BEHAVIOUR == "prints":
            while True:
                print("no frames any more, only words")


if BEHAVIOUR == "leaves":
    sys.exit(3)
if BEHAVIOUR == "talks":
    while True:
        print("welcome to this detector")
sensorsim_board.serve(Bad())
