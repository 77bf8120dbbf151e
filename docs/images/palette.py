#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes a PNG of few colours with a palette: a quarter of the size. usage: palette.py FROM.png TO.png"""
import struct
import sys
import zlib


def chunks(data):
    at = 8
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        yield kind, data[at + 8 : at + 8 + length]
        at += 12 + length


def rows(width, height, size, raw):
    """Undoes the filters of PNG (ISO/IEC 15948, 9.2)."""
    before = bytearray(width * size)
    at = 0
    for _ in range(height):
        kind, row = raw[at], bytearray(raw[at + 1 : at + 1 + width * size])
        at += 1 + width * size
        for i in range(len(row)):
            left = row[i - size] if i >= size else 0
            up = before[i]
            if kind == 1:
                row[i] = (row[i] + left) & 255
            elif kind == 2:
                row[i] = (row[i] + up) & 255
            elif kind == 3:
                row[i] = (row[i] + (left + up) // 2) & 255
            elif kind == 4:
                corner = before[i - size] if i >= size else 0
                guess = left + up - corner
                a, b, c = abs(guess - left), abs(guess - up), abs(guess - corner)
                row[i] = (row[i] + (left if a <= b and a <= c else up if b <= c else corner)) & 255
        before = row
        yield row


def main():
    data = open(sys.argv[1], "rb").read()
    parts = list(chunks(data))
    width, height, _, colour = struct.unpack(">IIBB", parts[0][1][:10])
    size = {2: 3, 6: 4}[colour]
    raw = zlib.decompress(b"".join(body for kind, body in parts if kind == b"IDAT"))
    palette, lines = {}, []
    for row in rows(width, height, size, raw):
        line = bytearray(1)
        for i in range(0, len(row), size):
            # Four bits a channel are enough for lines and letters.
            key = tuple(min(255, (v + 8) // 17 * 17) for v in row[i : i + 3])
            line.append(palette.setdefault(key, len(palette)) if len(palette) < 256 or key in palette else 0)
        lines.append(bytes(line))

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    with open(sys.argv[2], "wb") as file:
        file.write(
            b"\x89PNG\r\n\x1a\n"
            + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0))
            + chunk(b"PLTE", b"".join(bytes(k) for k in palette))
            + chunk(b"IDAT", zlib.compress(b"".join(lines), 9))
            + chunk(b"IEND", b"")
        )


main()
