"""Opening a file of the age format, version 1 (https://c2sp.org/age), that one passphrase sealed.
ChaCha20 and Poly1305 as RFC 8439 describes them; HKDF as RFC 5869."""

import base64
import hashlib
import hmac
import re
import struct
import unicodedata

INTRO = b"age-encryption.org/v1\n"
CHUNK, TAG, NONCE = 64 << 10, 16, 16
MOST_WORK = 17
HEADER = re.compile(
    rb"age-encryption\.org/v1\n-> scrypt ([A-Za-z0-9+/]{22}) ([1-9][0-9]*)\n"
    rb"([A-Za-z0-9+/]{43})\n---(?= ) ([A-Za-z0-9+/]{43})\n"
)


class Unopened(Exception):
    """Why the file was not opened: a code of the format document."""


def _chacha_block(key, counter, nonce):
    state = list(struct.unpack("<16I", b"expand 32-byte k" + key + struct.pack("<I", counter) + nonce))
    v = state[:]

    def quarter(a, b, c, d):
        v[a] = (v[a] + v[b]) & 0xFFFFFFFF
        v[d] ^= v[a]
        v[d] = (v[d] << 16 | v[d] >> 16) & 0xFFFFFFFF
        v[c] = (v[c] + v[d]) & 0xFFFFFFFF
        v[b] ^= v[c]
        v[b] = (v[b] << 12 | v[b] >> 20) & 0xFFFFFFFF
        v[a] = (v[a] + v[b]) & 0xFFFFFFFF
        v[d] ^= v[a]
        v[d] = (v[d] << 8 | v[d] >> 24) & 0xFFFFFFFF
        v[c] = (v[c] + v[d]) & 0xFFFFFFFF
        v[b] ^= v[c]
        v[b] = (v[b] << 7 | v[b] >> 25) & 0xFFFFFFFF

    for _ in range(10):
        for column in range(4):
            quarter(column, column + 4, column + 8, column + 12)
        for row in range(4):
            quarter(row, 4 + (row + 1) % 4, 8 + (row + 2) % 4, 12 + (row + 3) % 4)
    return struct.pack("<16I", *((a + b) & 0xFFFFFFFF for a, b in zip(v, state)))


def _poly1305(key, message):
    r = int.from_bytes(key[:16], "little") & 0x0FFFFFFC0FFFFFFC0FFFFFFC0FFFFFFF
    total = 0
    for at in range(0, len(message), 16):
        block = int.from_bytes(message[at : at + 16] + b"\1", "little")
        total = (total + block) * r % (2**130 - 5)
    return ((total + int.from_bytes(key[16:], "little")) % 2**128).to_bytes(16, "little")


def _open(key, nonce, sealed):
    """RFC 8439, 2.8, with no additional data. None: it was not sealed with this key."""
    text, tag = sealed[:-TAG], sealed[-TAG:]
    padded = text + b"\0" * (-len(text) % 16) + struct.pack("<QQ", 0, len(text))
    if not hmac.compare_digest(_poly1305(_chacha_block(key, 0, nonce)[:32], padded), tag):
        return None
    blocks = (len(text) + 63) // 64
    stream = b"".join(_chacha_block(key, number + 1, nonce) for number in range(blocks))
    return bytes(a ^ b for a, b in zip(text, stream))


def _hkdf(secret, salt, info):
    first = hmac.new(salt or b"\0" * 32, secret, hashlib.sha256).digest()
    return hmac.new(first, info + b"\1", hashlib.sha256).digest()


def _base64(text):
    data = base64.b64decode(text + b"=" * (-len(text) % 4), validate=True)
    if base64.b64encode(data).rstrip(b"=") != text:
        raise Unopened("seal_broken")
    return data


def unseal(file, passphrase):
    """What was sealed, to the byte."""
    header = HEADER.match(file)
    if not header:
        raise Unopened("seal_broken")
    salt, work, key, mac = header.groups()
    if len(work) > 3 or int(work) > MOST_WORK:
        raise Unopened("seal_too_costly")
    salt, key, mac = map(_base64, (salt, key, mac))
    secret = unicodedata.normalize("NFKC", passphrase).strip().encode()
    factor = 1 << int(work)
    wrapping = hashlib.scrypt(
        secret,
        salt=b"age-encryption.org/v1/scrypt" + salt,
        n=factor, r=8, p=1, maxmem=(factor + 16) * 1024 + (1 << 20), dklen=32,
    )
    file_key = _open(wrapping, b"\0" * 12, key)
    if file_key is None:
        raise Unopened("wrong_passphrase")
    signed = file[: header.end(3) + 4]
    if hmac.new(_hkdf(file_key, b"", b"header"), signed, hashlib.sha256).digest() != mac:
        raise Unopened("seal_broken")
    nonce, rest = file[header.end() : header.end() + NONCE], file[header.end() + NONCE :]
    payload, plain, number = _hkdf(file_key, nonce, b"payload"), [], 0
    while True:
        chunk, rest = rest[: CHUNK + TAG], rest[CHUNK + TAG :]
        last = not rest
        if len(chunk) < TAG or (last and number and len(chunk) == TAG):
            raise Unopened("seal_broken")
        opened = _open(payload, number.to_bytes(11, "big") + bytes([last]), chunk)
        if opened is None:
            raise Unopened("seal_broken")
        plain.append(opened)
        number += 1
        if last:
            return b"".join(plain)
