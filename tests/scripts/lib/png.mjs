// Writes pictures of screens as PNG with a palette: a third of the size, and nothing to be seen.
import { crc32, deflateSync } from 'node:zlib';

const COLOURS = 256;
/** Up to so many take half a byte for each pixel. */
const SMALL = 16;
/** Squared: nearer than this, one of a few colours stands for another. */
const ALIKE = 12 ** 2;
/** The same of two greys, which letters have more of than anybody tells apart. */
const ALIKE_GREYS = 28 ** 2;
/** A colour whose parts differ by less is a grey. */
const GREY = 24;

/**
 * A PNG (W3C, third edition) of 8-bit pixels with a palette: the commonest colours of the picture,
 * each other one shown as the nearest of them. `colours`: the most of them.
 */
export function palettedPng({ width, height, rgba }, colours = COLOURS) {
  const counts = new Map();
  const at = (pixel) => (rgba[4 * pixel] << 16) | (rgba[4 * pixel + 1] << 8) | rgba[4 * pixel + 2];
  for (let pixel = 0; pixel < width * height; pixel += 1) {
    counts.set(at(pixel), (counts.get(at(pixel)) ?? 0) + 1);
  }
  const palette = paletteOf(counts, colours);
  const nearest = new Map(palette.map((colour, index) => [colour, index]));
  const indexOf = (colour) => {
    let index = nearest.get(colour);
    if (index === undefined) {
      index = closest(palette, colour);
      nearest.set(colour, index);
    }
    return index;
  };
  // One byte before each row names its filter: none.
  const halves = palette.length <= SMALL;
  const length = 1 + (halves ? Math.ceil(width / 2) : width);
  const rows = Buffer.alloc(length * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const index = indexOf(at(y * width + x));
      if (halves) rows[y * length + 1 + (x >> 1)] |= x % 2 === 0 ? index << 4 : index;
      else rows[y * length + 1 + x] = index;
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([halves ? 4 : 8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('PLTE', Buffer.from(palette.flatMap((c) => [c >> 16, (c >> 8) & 255, c & 255]))),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** The commonest colours; where there are few, no two of them alike, so that small marks keep theirs. */
function paletteOf(counts, most) {
  const common = [...counts.entries()].sort((a, b) => b[1] - a[1]).map(([colour]) => colour);
  if (most > SMALL) return common.slice(0, most);
  const chosen = [];
  for (const colour of common) {
    if (chosen.length === most) break;
    const alike = (other) => (isGrey(other) && isGrey(colour) ? ALIKE_GREYS : ALIKE);
    if (chosen.every((other) => distance(other, colour) > alike(other))) chosen.push(colour);
  }
  return chosen;
}

function isGrey(colour) {
  const parts = [16, 8, 0].map((shift) => (colour >> shift) & 255);
  return Math.max(...parts) - Math.min(...parts) < GREY;
}

/** The square of the distance of two colours. */
function distance(one, other) {
  return [16, 8, 0].reduce(
    (sum, shift) => sum + (((one >> shift) & 255) - ((other >> shift) & 255)) ** 2,
    0,
  );
}

function closest(palette, colour) {
  let best = 0;
  let least = Infinity;
  palette.forEach((other, index) => {
    const far = distance(other, colour);
    if (far < least) [least, best] = [far, index];
  });
  return best;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const out = Buffer.alloc(8 + body.length);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body), 4 + body.length);
  return out;
}
