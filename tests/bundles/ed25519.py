"""Verifying Ed25519 signatures as RFC 8032, section 5.1.7, says, in the strict sense that the
format asks for: canonical numbers only, neither key nor R of small order, no cofactor."""

import hashlib

P = 2**255 - 19
L = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P
ROOT_OF_MINUS_ONE = pow(2, (P - 1) // 4, P)

# Points in extended homogeneous coordinates (RFC 8032, 5.1.4).
NEUTRAL = (0, 1, 1, 0)


def _add(p, q):
    a = (p[1] - p[0]) * (q[1] - q[0]) % P
    b = (p[1] + p[0]) * (q[1] + q[0]) % P
    c = 2 * p[3] * q[3] * D % P
    d = 2 * p[2] * q[2] % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return (e * f % P, g * h % P, f * g % P, e * h % P)


def _times(scalar, point):
    result = NEUTRAL
    while scalar:
        if scalar & 1:
            result = _add(result, point)
        point = _add(point, point)
        scalar >>= 1
    return result


def _equal(p, q):
    return (p[0] * q[2] - q[0] * p[2]) % P == 0 and (p[1] * q[2] - q[1] * p[2]) % P == 0


def _point(data):
    """RFC 8032, 5.1.3; None if the bytes are no point."""
    y = int.from_bytes(data, "little")
    sign, y = y >> 255, y & (2**255 - 1)
    if y >= P:
        return None
    x2 = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    x = pow(x2, (P + 3) // 8, P)
    if (x * x - x2) % P:
        x = x * ROOT_OF_MINUS_ONE % P
    if (x * x - x2) % P or (x == 0 and sign):
        return None
    if x & 1 != sign:
        x = P - x
    return (x, y, 1, x * y % P)


BASE = _point((4 * pow(5, P - 2, P) % P).to_bytes(32, "little"))


def verifies(public_key, message, signature):
    """True if the signature of 64 bytes is one of this key over this message."""
    if len(public_key) != 32 or len(signature) != 64:
        return False
    key, r = _point(public_key), _point(signature[:32])
    s = int.from_bytes(signature[32:], "little")
    if key is None or r is None or s >= L:
        return False
    if any(_equal(_times(8, point), NEUTRAL) for point in (key, r)):
        return False
    digest = hashlib.sha512(signature[:32] + public_key + message).digest()
    k = int.from_bytes(digest, "little") % L
    return _equal(_times(s, BASE), _add(r, _times(k, key)))
