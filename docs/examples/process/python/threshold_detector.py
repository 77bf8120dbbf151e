#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A small R-peak detector: the difference of two samples that lie 12 ms apart, against half of a running peak, with a refractory time.

Integers only. The same algorithm as docs/examples/c-detector, step by step, so both give the same marks.
"""
import sensorsim_board
import sensorsim_link as link

R_PEAK = 0
REFRACTORY_MS = 250
THRESHOLD_PERCENT = 50


class Threshold:
    name = "threshold 1.0"

    def set(self, items):
        if items:
            raise ValueError(f"the detector threshold takes no setup; item {items[0].item:04X} came")

    def start(self, form):
        found = [i for i, c in enumerate(form.channels) if c.name == link.ECG]
        if not found:
            raise ValueError("The stream has no ecg; threshold needs it.")
        self._channel = found[0]
        ecg = form.channels[self._channel]
        if not 100 <= ecg.rate_hz <= 2000:
            raise ValueError(f"The ECG has {ecg.rate_hz} Hz; threshold works from 100 to 2000 Hz.")
        self._rate = ecg.rate_hz
        self._step = ecg.ticks_per_sample
        self._lag = max(1, ecg.rate_hz * 12 // 1000)
        self._ring = [0] * 64
        self._next = self._best = -1
        self._last = -1_000_000
        self._seen = self._peak = self._steepest = self._end = 0

    def take(self, samples):
        self._end = samples.begin_tick + samples.ticks
        marks = []
        for section in samples.sections:
            if section.channel == self._channel:
                for i, code in enumerate(section.codes, section.first_index):
                    self._sample(i, code, marks)
        return marks

    def flush(self):
        marks = []
        if self._best >= 0:
            self._give(self._end, marks)
        return marks

    def _sample(self, index, code, marks):
        if index != self._next:
            self._seen = 0
            self._best = -1
        self._next = index + 1
        self._ring[index % 64] = code
        self._seen += 1
        if self._seen <= self._lag:
            return
        steep = abs(code - self._ring[(index - self._lag) % 64])
        # The running peak follows at once and falls by 1/1024 of itself a sample.
        self._peak = max(self._peak - (self._peak >> 10), steep * 16)
        is_above = steep * 1600 > self._peak * THRESHOLD_PERCENT
        is_free = (index - self._last) * 1000 >= REFRACTORY_MS * self._rate
        if self._best < 0 and is_above and is_free and self._seen > self._rate:
            self._best, self._steepest = index, steep
        elif self._best >= 0 and steep > self._steepest:
            self._best, self._steepest = index, steep
        elif self._best >= 0 and (index - self._best) * 1000 >= 60 * self._rate:
            self._give(index * self._step, marks)

    def _give(self, emitted_tick, marks):
        # The steepest rise ends at the peak, as good as this detector knows.
        marks.append(link.Mark(R_PEAK, self._channel, self._best, emitted_tick))
        self._last = self._best
        self._best = -1


if __name__ == "__main__":
    sensorsim_board.serve(Threshold())
