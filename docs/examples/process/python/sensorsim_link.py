# SPDX-License-Identifier: MIT
"""The link protocol of docs/link-protocol.md in plain Python 3: frames, and every payload in both directions.

pack_X makes a payload, unpack_X reads one and raises ValueError when it is none.
"""
import math
import struct
from typing import NamedTuple

VERSION = 1
MAX_PAYLOAD = 240
MAX_BODY = 252
MAX_TICK = 1 << 62
MAX_DELAY256 = 1 << 48

HELLO, FORMAT, SETUP, START, STOP, ASK, CAPTURE, SAMPLES, SETTING = 0x01, 0x02, 0x03, 0x04, 0x05, 0x06, 0x07, 0x10, 0x12
ABOUT, ACCEPTED, PROGRESS, MARKS, REQUEST, LOG, TROUBLE, STOPPED, FIGURES = 0x81, 0x83, 0x84, 0x90, 0x91, 0x92, 0x93, 0x95, 0x96

UNKNOWN_TYPE, WRONG_CONTENT, WRONG_VERSION, NOT_STARTED, NO_SUCH_CHANNEL = 1, 2, 3, 4, 5
SETUP_REFUSED, FORMAT_REFUSED, SAMPLES_TOO_EARLY, ANSWERS_LOST, BOARD_FAULT = 6, 7, 8, 9, 10

ECG, RED, INFRARED, GREEN, DARK, ACCEL_X, ACCEL_Y, ACCEL_Z = range(8)
KINDS = 46
SETTINGS = 4


# ---- Check and COBS ----

def _row(i):
    for _ in range(8):
        i = (i >> 1) ^ 0x82F63B78 if i & 1 else i >> 1
    return i


_CRC_OF_BYTE = [_row(i) for i in range(256)]


def crc32c(data):
    """CRC-32C (Castagnoli); that of b"123456789" is E3069283."""
    rest = 0xFFFFFFFF
    for byte in data:
        rest = (rest >> 8) ^ _CRC_OF_BYTE[(rest ^ byte) & 0xFF]
    return rest ^ 0xFFFFFFFF


def cobs_encode(data):
    """Bytes without 00: Cheshire and Baker 1999."""
    out = bytearray()
    groups = bytes(data).split(b"\0")
    for place, group in enumerate(groups):
        while len(group) >= 254:
            out += b"\xff" + group[:254]
            group = group[254:]
            if not group and place == len(groups) - 1:
                return bytes(out)
        out.append(len(group) + 1)
        out += group
    return bytes(out)


def cobs_decode(data):
    """What cobs_encode made; ValueError when the bytes are not sound."""
    out = bytearray()
    at = 0
    while at < len(data):
        code = data[at]
        group = data[at + 1:at + code]
        if code == 0 or len(group) != code - 1 or 0 in group:
            raise ValueError("no sound COBS")
        out += group
        at += code
        if code != 255 and at < len(data):
            out.append(0)
    return bytes(out)


# ---- Frames ----

class Frame(NamedTuple):
    type: int
    sequence: int
    payload: bytes


class Writer:
    """Makes the frames of one direction and numbers them."""

    def __init__(self, first=0):
        self.next_sequence = first

    def frame(self, kind, payload=b""):
        """The bytes for the wire; hello, about and ask get a 00 in front."""
        if len(payload) > MAX_PAYLOAD:
            raise ValueError(f"a payload holds at most {MAX_PAYLOAD} bytes, not {len(payload)}")
        body = struct.pack("<BBHI", VERSION, kind, len(payload), self.next_sequence) + payload
        body += struct.pack("<I", crc32c(body))
        self.next_sequence = (self.next_sequence + 1) & 0xFFFFFFFF
        return (b"\0" if kind in (HELLO, ABOUT, ASK) else b"") + cobs_encode(body) + b"\0"


class Reader:
    """Finds the frames in bytes as they come, and counts what is wrong with them."""

    def __init__(self):
        self.good = self.damaged = self.missing = self.repeated = self.other_version = 0
        self.other_version_sequence = 0
        self._rest = bytearray()
        self._last = None

    def take(self, data):
        """Takes bytes; returns the frames that were accepted."""
        frames = []
        *ended, rest = bytes(data).split(b"\0")
        for piece in ended:
            self._keep(piece)
            if self._rest:
                frames += self._finish()
            self._rest.clear()
        self._keep(rest)
        return frames

    def _keep(self, piece):
        # One byte more than any frame has is enough to know that it is too long.
        self._rest += piece[:MAX_BODY + 2 - len(self._rest)]

    def _finish(self):
        try:
            body = cobs_decode(self._rest)
            version, kind, length, sequence = struct.unpack_from("<BBHI", body)
            if not 12 <= len(body) <= MAX_BODY or length != len(body) - 12 or struct.unpack("<I", body[-4:])[0] != crc32c(body[:-4]):
                raise ValueError("damaged")
        except (ValueError, struct.error):
            self.damaged += 1
            return []
        if version != VERSION:
            self.damaged += 1
            self.other_version += 1
            self.other_version_sequence = sequence
            return []
        if self._last is not None and kind not in (HELLO, ABOUT):
            ahead = (sequence - self._last) & 0xFFFFFFFF
            if ahead == 0 or ahead > 0x7FFFFFFF:
                self.repeated += 1
                return []
            self.missing += ahead - 1
        self._last = sequence
        self.good += 1
        return [Frame(kind, sequence, body[8:-4])]


# ---- Small payloads ----

def _fields(layout, payload, exact=True):
    size = struct.calcsize(layout)
    if len(payload) < size or (exact and len(payload) != size):
        raise ValueError(f"{len(payload)} bytes instead of {size}")
    return struct.unpack_from(layout, payload)


def _text(text, room):
    data = text.encode()
    while len(data) > room:
        text = text[:-1]
        data = text.encode()
    return data


def _tick(tick):
    if not 0 <= tick <= MAX_TICK:
        raise ValueError(f"tick {tick} is not 0 to 2^62")
    return tick


class Hello(NamedTuple):
    session: int
    oldest_version: int
    newest_version: int
    who: str


def pack_hello(x):
    return struct.pack("<IBBH", x.session, x.oldest_version, x.newest_version, 0) + _text(x.who, MAX_PAYLOAD - 8)


def unpack_hello(payload):
    session, oldest, newest, _ = _fields("<IBBH", payload, exact=False)
    return Hello(session, oldest, newest, payload[8:].decode(errors="replace"))


class About(NamedTuple):
    session: int
    version: int
    largest_payload: int
    credit: int
    state_bytes: int
    detector: str


def pack_about(x):
    return struct.pack("<IBBHII", x.session, x.version, 0, x.largest_payload, x.credit, x.state_bytes) + _text(x.detector, MAX_PAYLOAD - 16)


def unpack_about(payload):
    session, version, _, largest, credit, state = _fields("<IBBHII", payload, exact=False)
    return About(session, version, largest, credit, state, payload[16:].decode(errors="replace"))


def pack_tick(tick):
    """start and stop."""
    return struct.pack("<Q", tick)


def unpack_tick(payload):
    return _tick(_fields("<Q", payload)[0])


def pack_capture():
    return bytes(4)


class Accepted(NamedTuple):
    type: int
    sequence: int


def pack_accepted(x):
    return struct.pack("<II", x.type, x.sequence)


def unpack_accepted(payload):
    kind, _, _, sequence = _fields("<BBHI", payload)
    return Accepted(kind, sequence)


class Progress(NamedTuple):
    session: int
    credit: int
    taken_tick: int
    accepted: int
    damaged: int
    missing: int
    repeated: int
    marks_sent: int
    clock_us: int


def pack_progress(x):
    """progress and stopped."""
    return struct.pack("<IIQIIIIII", *x)


def unpack_progress(payload):
    progress = Progress(*_fields("<IIQIIIIII", payload))
    _tick(progress.taken_tick)
    return progress


class Setting(NamedTuple):
    channel: int
    setting: int
    value_milli: int
    first_tick: int


def pack_setting(x):
    """setting and request."""
    return struct.pack("<BBHiQ", x.channel, x.setting, 0, x.value_milli, x.first_tick)


def unpack_setting(payload):
    channel, setting, _, value, tick = _fields("<BBHiQ", payload)
    if setting >= SETTINGS:
        raise ValueError(f"setting {setting} is none")
    return Setting(channel, setting, value, _tick(tick))


class Log(NamedTuple):
    level: int  # 0 information, 1 warning, 2 fault
    text: str


def pack_log(x):
    return bytes([x.level]) + _text(x.text, MAX_PAYLOAD - 1)


def unpack_log(payload):
    if not payload or payload[0] > 2:
        raise ValueError("no such level")
    return Log(payload[0], payload[1:].decode(errors="replace"))


class Trouble(NamedTuple):
    code: int
    sequence: int
    text: str


def pack_trouble(x):
    return struct.pack("<HHI", x.code, 0, x.sequence) + _text(x.text, MAX_PAYLOAD - 8)


def unpack_trouble(payload):
    code, _, sequence = _fields("<HHI", payload, exact=False)
    return Trouble(code, sequence, payload[8:].decode(errors="replace"))


class Item(NamedTuple):
    item: int
    index: int
    value: int


def pack_items(items):
    """setup and figures; at most 20."""
    return b"".join(struct.pack("<HHq", *item) for item in items)


def unpack_items(payload):
    if len(payload) % 12 != 0:
        raise ValueError(f"{len(payload)} bytes are no items of 12")
    return [Item(*item) for item in struct.iter_unpack("<HHq", payload)]


# ---- Marks ----

class Mark(NamedTuple):
    kind: int
    channel: int
    sample: int
    emitted_tick: int
    fraction256: int = 0
    value: int | None = None  # thousandths of the kind's unit, or codes
    is_in_codes: bool = False
    quality: int = 255
    paired_channel: int | None = None
    paired_sample: int = 0
    paired_fraction256: int = 0
    window_samples: int = 0


_MARK = "<8Bqqqqi"


def pack_marks(marks):
    """1 to 5 marks."""
    out = struct.pack("<I", len(marks))
    for m in marks:
        flags = (0 if m.value is None else 1) | (2 if m.is_in_codes else 0)
        paired = 255 if m.paired_channel is None else m.paired_channel
        out += struct.pack(_MARK, m.kind, m.channel, paired, m.quality, m.fraction256, m.paired_fraction256, flags, 0,
                           m.sample, m.paired_sample, m.window_samples, m.emitted_tick, m.value or 0)
    return out


def unpack_marks(payload, channels):
    if len(payload) < 4 or not 1 <= payload[0] <= 5 or len(payload) != 4 + (44 * payload[0]):
        raise ValueError("the length is not that of the marks")
    marks = []
    for kind, channel, paired, quality, fraction, paired_fraction, flags, _, sample, paired_sample, window, tick, value in \
            struct.iter_unpack(_MARK, payload[4:]):
        if kind >= KINDS or channel >= channels or (paired != 255 and paired >= channels):
            raise ValueError("no such kind or channel")
        is_paired = paired != 255
        marks.append(Mark(kind, channel, sample, tick, fraction, value if flags & 1 else None, bool(flags & 2), quality,
                          paired if is_paired else None, paired_sample if is_paired else 0, paired_fraction if is_paired else 0, window))
    return marks


# ---- Format ----

class Channel(NamedTuple):
    name: int
    bits: int
    is_signed: bool
    falls: bool  # a rising physical value lowers the code
    device: int
    rate_hz: int
    ticks_per_sample: int
    zero_code: int
    codes_per_unit256: int
    delay256: int
    delay_ns: int
    unit_per_code: float


_CHANNEL = "<BBBBIIiiIqqd"


class Format:
    """Channels and clock of a stream, put together from the payloads that tell it."""

    def __init__(self, ticks_per_second=0, channels=()):
        self.ticks_per_second = ticks_per_second
        self.channels = list(channels)

    @property
    def is_complete(self):
        return bool(self.channels) and None not in self.channels

    def take(self, payload):
        """Takes a payload; ValueError when it contradicts itself or what was told before, and nothing has changed then."""
        ticks, count, first, here, _ = _fields("<IBBBB", payload, exact=False)
        known = self.channels or [None] * count
        if not 1 <= count <= 8 or not 1 <= here <= 4 or first + here > count or len(payload) != 8 + (48 * here):
            raise ValueError("the length is not that of the channels")
        if len(known) != count or (self.channels and ticks != self.ticks_per_second):
            raise ValueError("another stream than before")
        told = list(known)
        for i, fields in enumerate(struct.iter_unpack(_CHANNEL, payload[8:]), first):
            name, bits, flags, device, rate, step, zero, codes, _, delay256, delay_ns, unit = fields
            channel = Channel(name, bits, bool(flags & 1), bool(flags & 2), device, rate, step, zero, codes, delay256, delay_ns, unit)
            if name > 7 or not 4 <= bits <= 24 or rate * step != ticks or not 0 < ticks <= 1_000_000_000 \
                    or abs(delay256) > MAX_DELAY256 or (known[i] is not None and known[i] != channel):
                raise ValueError(f"channel {i} cannot be")
            told[i] = channel
        names = [c.name for c in told if c is not None]
        if names != sorted(set(names)):
            raise ValueError("channels do not ascend")
        if None not in told and math.lcm(*(c.rate_hz for c in told)) != ticks:
            raise ValueError("ticks per second are not the lowest common multiple of the rates")
        self.ticks_per_second, self.channels = ticks, told

    def pack(self):
        """The payloads: one for up to four channels, else two."""
        payloads = []
        for first in range(0, len(self.channels), 4):
            here = self.channels[first:first + 4]
            payload = struct.pack("<IBBBB", self.ticks_per_second, len(self.channels), first, len(here), 0)
            for c in here:
                payload += struct.pack(_CHANNEL, c.name, c.bits, c.is_signed | (2 * c.falls), c.device, c.rate_hz, c.ticks_per_sample, c.zero_code,
                                       c.codes_per_unit256, 0, c.delay256, c.delay_ns, c.unit_per_code)
            payloads.append(payload)
        return payloads


# ---- Samples ----

class Section(NamedTuple):
    channel: int
    first_index: int
    codes: list
    status: list


class Samples(NamedTuple):
    begin_tick: int
    ticks: int
    wants_progress: bool
    sections: list


def _first_index(tick, step):
    return -(-tick // step)


def pack_samples(x, form):
    out = struct.pack("<QIBBH", x.begin_tick, x.ticks, len(x.sections), x.wants_progress, 0)
    for section in x.sections:
        channel = form.channels[section.channel]
        words = section.status if len(set(section.status)) > 1 else [w for w in section.status[:1] if w != 0]
        mode = 2 if len(set(section.status)) > 1 else len(words)
        gap = section.first_index - _first_index(x.begin_tick, channel.ticks_per_sample)
        out += struct.pack("<BBBB", section.channel, mode, len(section.codes), gap)
        out += struct.pack(f"<{len(words)}H", *words)
        packed = 0
        for i, code in enumerate(section.codes):
            packed |= (code & ((1 << channel.bits) - 1)) << (i * channel.bits)
        out += packed.to_bytes(((len(section.codes) * channel.bits) + 7) // 8, "little")
    return out


def unpack_samples(payload, form):
    begin, ticks, count, flags, _ = _fields("<QIBBH", payload, exact=False)
    _tick(begin)
    if ticks > (form.ticks_per_second + 9) // 10 or (ticks == 0 and count != 0):
        raise ValueError(f"{ticks} ticks are more than a tenth of a second, or none with samples")
    sections = []
    at = 16
    for _ in range(count):
        number, mode, samples, gap = _fields("<BBBB", payload[at:], exact=False)
        if number >= len(form.channels):
            raise LookupError(f"the stream has no channel {number}")
        if mode > 2 or samples == 0 or (sections and number <= sections[-1].channel):
            raise ValueError("a section that cannot be")
        channel = form.channels[number]
        first = _first_index(begin, channel.ticks_per_sample) + gap
        words = (0, 1, samples)[mode]
        at += 4
        status = list(_fields(f"<{words}H", payload[at:], exact=False)) or [0]
        at += 2 * words
        size = ((samples * channel.bits) + 7) // 8
        if at + size > len(payload) or (first + samples - 1) * channel.ticks_per_sample >= begin + ticks:
            raise ValueError("samples beyond the end")
        packed = int.from_bytes(payload[at:at + size], "little")
        at += size
        codes = [(packed >> (i * channel.bits)) & ((1 << channel.bits) - 1) for i in range(samples)]
        if channel.is_signed:
            codes = [c - (1 << channel.bits) if c >> (channel.bits - 1) else c for c in codes]
        sections.append(Section(number, first, codes, status if mode == 2 else status * samples))
    if at != len(payload):
        raise ValueError("bytes left over")
    return Samples(begin, ticks, bool(flags & 1), sections)
