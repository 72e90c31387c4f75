"""Writes golden.cbrec by docs/recording-format.md alone: a second encoder, so that the reader is not checked against its own writer."""
import struct
import uuid
import zlib

MARKER = bytes.fromhex("F5434B420D0A1A0A")
SESSION = bytes(range(16))
UTC = 1_780_000_000_000_000  # 2026-05-28T20:26:40Z


def text(words):
    data = words.encode()
    return struct.pack("<H", len(data)) + data


def block(kind, sequence, payload, elapsed):
    head = struct.pack("<BBH16sIqqI", 1, kind, 0, SESSION, sequence, UTC + elapsed, elapsed, len(payload))
    head += struct.pack("<I", zlib.crc32(head))
    return MARKER + head + payload + struct.pack("<I", zlib.crc32(head + payload))


def frame(body):
    """SPEC section 1: COBS by its definition, one group at a time."""
    content = body + struct.pack("<I", zlib.crc32(body))
    stuffed = b"".join(bytes([len(group) + 1]) + group for group in content.split(b"\0"))
    return b"\0" + stuffed + b"\0"


def sevens(value, count):
    return bytes(0x80 | (value >> (7 * i) & 0x7F) for i in range(count))


def samples(sequence, base, period, counts):
    entries = b"".join(sevens(count | (256 << 12), 3) for count in counts)
    return frame(b"\x22" + struct.pack("<H", sequence) + entries + b"\x32" + sevens(period, 3) + b"\x71" + sevens(base, 7))


session = struct.pack("<BHI8s3sIIIHHH", 1, 1, 0xADC96700, b"golden01", bytes([0, 1, 0]), 3, 0, 1000, 32, 0, 4095)
session += text("0.1.0") + text("/dev/ttyUSB7")
document = b"\x01" + text("räm.toml") + "[site]\nname = \"Fernhollow °\"\n".encode()
first = samples(0, 5_000_000, 1000, [100, 101, 102, 103])
second = samples(1, 5_004_000, 1000, [200, 201])
cut = len(second) // 2
frames = struct.pack("<qH", 150_000, len(first) + cut) + first + second[:cut]
frames += struct.pack("<qH", 170_000, len(second) - cut) + second[cut:]
loss = struct.pack("<BBqqqqqq", 1, 0, 200_000, 2_300_000, 5_005_000, 7_105_000, 2099, 0) + text("the link was lost")
end = struct.pack("<BqI", 2, 6, 1) + b"\xAA\xBB"  # an unknown tail, which a reader ignores
future = b"a kind that this version does not know"

with open("golden.cbrec", "wb") as out:
    for sequence, (kind, payload) in enumerate(
        [(1, session), (2, document), (3, frames), (4, loss), (99, future), (5, end)]
    ):
        out.write(block(kind, sequence, payload, 100_000 * sequence))
