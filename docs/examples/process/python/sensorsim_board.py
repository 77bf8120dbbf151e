# SPDX-License-Identifier: MIT
"""The board's side of the link protocol over standard input and output, around any detector.

A detector has
    name                            name and version
    set(items)                      takes setup items, all or none; ValueError says which one it does not know
    start(form)                     prepares for a stream; ValueError says what it needs instead
    take(samples)                   takes samples; returns marks
    flush()                         the stream has ended; returns the last marks
How a stream is cut into frames must not change the marks. What a detector prints to standard error goes into the host's log.
"""
import sys
import time

import sensorsim_link as link

CREDIT = 32


class Board:
    """Answers frames; nothing is known here of where bytes come from."""

    def __init__(self, detector):
        self._detector = detector
        self._reader = link.Reader()
        self._writer = link.Writer()
        self._session = 0
        self._begin_session(None)

    def _begin_session(self, session):
        self._has_session = session is not None
        self._session = session or 0
        self._form = link.Format()
        self._counts_before = (self._reader.good - 1, self._reader.damaged, self._reader.missing, self._reader.repeated)
        self._is_started = self._is_stopped = False
        self._begin = self._taken = self._marks_sent = self._unused = self._last_number = 0

    def take(self, data):
        """Takes bytes from the host; returns the bytes for it."""
        out = b""
        before = self._reader.other_version
        for frame in self._reader.take(data):
            out += self._answer(frame)
        if self._reader.other_version > before:
            out += self._trouble(link.WRONG_VERSION, self._reader.other_version_sequence, f"version {link.VERSION} is spoken here")
        return out

    def _answer(self, frame):
        handlers = {
            link.HELLO: self._hello, link.FORMAT: self._format, link.SETUP: self._setup, link.START: self._start,
            link.SAMPLES: self._samples, link.ASK: self._ask, link.STOP: self._stop, link.SETTING: self._setting,
        }
        if frame.type not in handlers:
            return self._trouble(link.UNKNOWN_TYPE, frame.sequence, f"frames of type {frame.type:02X} are not known here")
        self._last_number = frame.sequence
        if frame.type != link.HELLO and not self._has_session:
            return self._trouble(link.NOT_STARTED, frame.sequence, "there is no session; it begins with hello")
        try:
            return handlers[frame.type](frame)
        except ValueError as error:
            return self._trouble(link.WRONG_CONTENT, frame.sequence, str(error))

    def _hello(self, frame):
        hello = link.unpack_hello(frame.payload)
        if not hello.oldest_version <= link.VERSION <= hello.newest_version:
            return self._trouble(link.WRONG_VERSION, frame.sequence, f"version {link.VERSION} is spoken here")
        if not self._has_session or hello.session != self._session:
            self._begin_session(hello.session)
        return self._writer.frame(link.ABOUT, link.pack_about(
            link.About(self._session, link.VERSION, link.MAX_PAYLOAD, CREDIT, 0, self._detector.name)))

    def _format(self, frame):
        try:
            self._form.take(frame.payload)
        except ValueError as error:
            return self._trouble(link.FORMAT_REFUSED, frame.sequence, str(error))
        return self._accepted(frame)

    def _setup(self, frame):
        items = link.unpack_items(frame.payload)
        try:
            if not self._is_started:
                self._detector.set(items)
        except ValueError as error:
            return self._trouble(link.SETUP_REFUSED, frame.sequence, str(error))
        return self._accepted(frame)

    def _start(self, frame):
        tick = link.unpack_tick(frame.payload)
        if not self._is_started:
            if not self._form.is_complete:
                return self._trouble(link.FORMAT_REFUSED, frame.sequence, "the channels are not all told yet")
            try:
                self._detector.start(self._form)
            except ValueError as error:
                return self._trouble(link.FORMAT_REFUSED, frame.sequence, str(error))
            self._is_started = True
            self._begin = self._taken = tick
        elif tick != self._begin:
            raise ValueError("the session has begun otherwise; say hello with a new number")
        return self._accepted(frame)

    def _samples(self, frame):
        if not self._is_started or self._is_stopped:
            return self._trouble(link.NOT_STARTED, frame.sequence, "samples before a start, or after a stop")
        try:
            samples = link.unpack_samples(frame.payload, self._form)
        except LookupError as error:
            return self._trouble(link.NO_SUCH_CHANNEL, frame.sequence, str(error))
        if samples.begin_tick < self._taken:
            return self._trouble(link.SAMPLES_TOO_EARLY, frame.sequence, f"samples are taken up to tick {self._taken}")
        out = self._marks(self._detector.take(samples))
        self._taken = samples.begin_tick + samples.ticks
        self._unused += 1
        if samples.wants_progress or self._unused >= CREDIT // 2:
            out += self._progress(link.PROGRESS)
        return out

    def _ask(self, _):
        return self._progress(link.PROGRESS)

    def _stop(self, frame):
        tick = link.unpack_tick(frame.payload)
        if not self._is_started:
            return self._trouble(link.NOT_STARTED, frame.sequence, "no start yet")
        out = b""
        if not self._is_stopped:
            self._taken = max(self._taken, tick)
            out = self._marks(self._detector.flush())
            self._is_stopped = True
        return out + self._progress(link.STOPPED)

    def _setting(self, frame):
        if not self._is_started:
            return self._trouble(link.NOT_STARTED, frame.sequence, "no start yet")
        link.unpack_setting(frame.payload)
        return b""

    def _marks(self, marks):
        self._marks_sent += len(marks)
        return b"".join(self._writer.frame(link.MARKS, link.pack_marks(marks[i:i + 5])) for i in range(0, len(marks), 5))

    def _accepted(self, frame):
        return self._writer.frame(link.ACCEPTED, link.pack_accepted(link.Accepted(frame.type, frame.sequence)))

    def _progress(self, kind):
        self._unused = 0
        now = (self._reader.good, self._reader.damaged, self._reader.missing, self._reader.repeated)
        counts = [(n - before) & 0xFFFFFFFF for n, before in zip(now, self._counts_before)]
        return self._writer.frame(kind, link.pack_progress(link.Progress(
            self._session, (self._last_number + CREDIT) & 0xFFFFFFFF, self._taken, *counts, self._marks_sent,
            time.monotonic_ns() // 1000 & 0xFFFFFFFF)))

    def _trouble(self, code, sequence, text):
        return self._writer.frame(link.TROUBLE, link.pack_trouble(link.Trouble(code, sequence, text)))


def serve(detector):
    """Speaks with the host until it closes standard input."""
    board = Board(detector)
    while data := sys.stdin.buffer.read1(65536):
        answer = board.take(data)
        if answer:
            sys.stdout.buffer.write(answer)
            sys.stdout.buffer.flush()
