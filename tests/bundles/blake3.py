"""BLAKE3 in its hash mode, from the paper "BLAKE3: one function, fast everywhere" (O'Connor,
Aumasson, Neves, Wilcox-O'Hearn, 2020), sections 2.1 to 2.6. Slow and plain on purpose: it checks
what a fast library wrote."""

IV = (
    0x6A09E667, 0xBB67AE85, 0x3C6EF372, 0xA54FF53A,
    0x510E527F, 0x9B05688C, 0x1F83D9AB, 0x5BE0CD19,
)
PERMUTATION = (2, 6, 3, 10, 7, 0, 4, 13, 1, 11, 12, 5, 9, 14, 15, 8)
# Columns, then diagonals.
PLACES = (
    (0, 4, 8, 12), (1, 5, 9, 13), (2, 6, 10, 14), (3, 7, 11, 15),
    (0, 5, 10, 15), (1, 6, 11, 12), (2, 7, 8, 13), (3, 4, 9, 14),
)
CHUNK_START, CHUNK_END, PARENT, ROOT = 1, 2, 4, 8
CHUNK, BLOCK, MASK = 1024, 64, 0xFFFFFFFF


def _schedule():
    """The order of the message words in each of the seven rounds."""
    order = tuple(range(16))
    for _ in range(7):
        yield order
        order = tuple(order[place] for place in PERMUTATION)


SCHEDULE = tuple(_schedule())


def _compress(chaining, words, counter, length, flags):
    """Section 2.2: the first half of the compression's output."""
    v = list(chaining) + list(IV[:4]) + [counter & MASK, counter >> 32, length, flags]
    for order in SCHEDULE:
        at = 0
        for a, b, c, d in PLACES:
            va, vb, vc, vd = v[a], v[b], v[c], v[d]
            va = (va + vb + words[order[at]]) & MASK
            vd ^= va
            vd = (vd >> 16 | vd << 16) & MASK
            vc = (vc + vd) & MASK
            vb ^= vc
            vb = (vb >> 12 | vb << 20) & MASK
            va = (va + vb + words[order[at + 1]]) & MASK
            vd ^= va
            vd = (vd >> 8 | vd << 24) & MASK
            vc = (vc + vd) & MASK
            vb ^= vc
            v[a], v[b], v[c], v[d] = va, (vb >> 7 | vb << 25) & MASK, vc, vd
            at += 2
    return [v[i] ^ v[i + 8] for i in range(8)]


def _words(block):
    block = block.ljust(BLOCK, b"\0")
    return [int.from_bytes(block[i : i + 4], "little") for i in range(0, BLOCK, 4)]


def _chunk(data, counter, last_flags):
    """Section 2.4: the chaining value of one chunk."""
    blocks = [data[i : i + BLOCK] for i in range(0, len(data), BLOCK)] or [b""]
    chaining = IV
    for number, block in enumerate(blocks):
        flags = CHUNK_START if number == 0 else 0
        if number == len(blocks) - 1:
            flags |= CHUNK_END | last_flags
        chaining = _compress(chaining, _words(block), counter, len(block), flags)
    return chaining


def _tree(data, first, root):
    """Section 2.5: the left part holds the greatest power of two of whole chunks that leaves
    something for the right."""
    if len(data) <= CHUNK:
        return _chunk(data, first, root)
    chunks = (len(data) + CHUNK - 1) // CHUNK
    left = 1 << ((chunks - 1).bit_length() - 1)
    both = _tree(data[: left * CHUNK], first, 0) + _tree(data[left * CHUNK :], first + left, 0)
    return _compress(IV, both, 0, BLOCK, PARENT | root)


def blake3(data):
    """The 32-byte hash of `data`."""
    return b"".join(word.to_bytes(4, "little") for word in _tree(bytes(data), 0, ROOT))
