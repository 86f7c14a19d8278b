"""Makes the fonts that are set in the PDF from the web fonts that the interface uses, and the signs
that those lack for the interface.

    python3 -m venv venv && venv/bin/pip install fonttools==4.68.0 brotli==1.2.1
    venv/bin/python make_fonts.py NODE_MODULES

The two subsets of each weight (latin, latin-ext) become one TrueType file. The subsets lack some signs
that the reports use; those are added here, out of strokes as thick as the font's own minus sign: the
outlines are ours, under the font's licence (OFL.txt; it reserves no name). The interface gets the signs
of units and comparisons alone, beside its subset of each weight (ui/src/styles/signs). Run again, it
gives the same bytes.
"""
import math
import sys
from pathlib import Path

from fontTools import merge, subset
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
FONTS = [
    ("atkinson-hyperlegible-next", 400, "Atkinson Hyperlegible Next", "Regular"),
    ("atkinson-hyperlegible-next", 700, "Atkinson Hyperlegible Next", "Bold"),
    ("atkinson-hyperlegible-mono", 400, "Atkinson Hyperlegible Mono", "Regular"),
]
SIGNS = HERE.parents[3] / "ui" / "src" / "styles" / "signs"
# The weights that the interface loads, and what its subsets lack of what it writes or a person types:
# the range that fonts.css names.
INTERFACE = [
    *[("atkinson-hyperlegible-next", weight) for weight in (400, 600, 700)],
    *[("atkinson-hyperlegible-mono", weight) for weight in (400, 600)],
]
LACKED = [0xB5, 0x394, 0x3A9, 0x3BC, 0x2126, 0x2206, 0x2248, 0x2264, 0x2265]


def polygon(pen, points):
    """Clockwise in font units, as TrueType fills."""
    area = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1]))
    points = points[::-1] if area > 0 else points
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    pen.closePath()


def hole(pen, points):
    area = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1]))
    points = points[::-1] if area < 0 else points
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    pen.closePath()


def stroke(pen, a, b, thick):
    """A straight stroke from a to b."""
    (x1, y1), (x2, y2) = a, b
    long = math.hypot(x2 - x1, y2 - y1)
    nx, ny = (y1 - y2) / long * thick / 2, (x2 - x1) / long * thick / 2
    polygon(pen, [(x1 + nx, y1 + ny), (x2 + nx, y2 + ny), (x2 - nx, y2 - ny), (x1 - nx, y1 - ny)])


def arc(cx, cy, rx, ry, start, end, steps=48):
    return [
        (cx + rx * math.cos(math.radians(start + (end - start) * i / steps)),
         cy + ry * math.sin(math.radians(start + (end - start) * i / steps)))
        for i in range(steps + 1)
    ]


def signs(font):
    glyphs, cmap, hmtx = font.getGlyphSet(), font.getBestCmap(), font["hmtx"]

    def bounds(char):
        pen = BoundsPen(glyphs)
        glyphs[cmap[ord(char)]].draw(pen)
        return pen.bounds

    def copy(pen, char, move=(1, 0, 0, 1, 0, 0)):
        record = DecomposingRecordingPen(glyphs)
        glyphs[cmap[ord(char)]].draw(record)
        record.replay(TransformPen(pen, move))

    left, low, right, high = bounds("\u2212")
    thick = high - low
    capital = bounds("H")[3]
    descent = bounds("p")[1]
    made = {}

    def sign(code, name, advance, draw):
        pen = TTGlyphPen(None)
        draw(pen)
        made[name] = (code, pen.glyph(), round(advance))

    digit = hmtx[cmap[ord("0")]][0]
    mono = hmtx[cmap[ord("i")]][0] == hmtx[cmap[ord("m")]][0]
    wide = digit if mono else digit * 1.3
    u_advance, u = hmtx[cmap[ord("u")]][0], bounds("u")
    # The left stem of u, between the two leftmost of its points at the top.
    points = font["glyf"][cmap[ord("u")]].getCoordinates(font["glyf"])[0]
    tops = sorted({x for x, y in points if y > u[3] - 3})
    stem = tops[1] - tops[0]

    def mu(pen):
        copy(pen, "u")
        polygon(pen, [(u[0], descent), (u[0] + stem, descent), (u[0] + stem, u[3] * 0.5), (u[0], u[3] * 0.5)])

    sign([0xB5, 0x3BC], "mu.vw", u_advance, mu)

    edge = digit * 0.08
    mid = digit / 2

    def delta(pen):
        polygon(pen, [(edge, 0), (mid, capital), (digit - edge, 0)])
        half, k = mid - edge, thick
        side = k * math.hypot(half, capital) / capital
        left = edge + k * half / capital + side
        hole(pen, [(left, k), (mid, capital - side * capital / half), (digit - left, k)])

    sign([0x394, 0x2206], "Delta.vw", digit, delta)

    def omega(pen):
        cx, rx, top, foot = wide / 2, wide / 2 - edge, capital, thick
        cy, ry = capital * 0.56, capital * 0.44
        outer = arc(cx, cy, rx, ry, -55, 235)
        inner = arc(cx, cy, rx - thick * 1.1, ry - thick, 235, -55)
        polygon(pen, [(wide - edge, 0), (wide - edge, foot), outer[0], *outer[1:], (edge, foot), (edge, 0),
                      (cx - thick * 0.7, 0), *inner, (cx + thick * 0.7, 0)])

    sign([0x3A9, 0x2126], "Omega.vw", wide, omega)

    for code, name, char in ((0x2264, "lessequal.vw", "<"), (0x2265, "greaterequal.vw", ">")):
        def compared(pen, char=char):
            box = bounds(char)
            copy(pen, char, (1, 0, 0, 1, 0, thick * 1.2))
            polygon(pen, [(box[0], low - 3.4 * thick), (box[2], low - 3.4 * thick),
                          (box[2], low - 2.4 * thick), (box[0], low - 2.4 * thick)])
        sign([code], name, hmtx[cmap[ord(char)]][0], compared)

    def almost(pen):
        for up in (-1.1 * thick, 1.1 * thick):
            copy(pen, "~", (1, 0, 0, 1, 0, up))

    sign([0x2248], "approxequal.vw", hmtx[cmap[ord("~")]][0], almost)

    side, base = wide - 2 * edge, capital * 0.06
    square = [(edge, base), (edge + side, base), (edge + side, base + side), (edge, base + side)]
    inside = [(edge + thick, base + thick), (edge + side - thick, base + thick),
              (edge + side - thick, base + side - thick), (edge + thick, base + side - thick)]
    cx, cy, r = wide / 2, base + side / 2, side / 2
    diamond = [(cx, cy - r * 1.15), (cx + r, cy), (cx, cy + r * 1.15), (cx - r, cy)]
    sign([0x25A0], "square.vw", wide, lambda pen: polygon(pen, square))
    sign([0x25A1], "box.vw", wide, lambda pen: (polygon(pen, square), hole(pen, inside)))
    sign([0x25CF], "disc.vw", wide, lambda pen: polygon(pen, arc(cx, cy, r, r, 0, 360)[:-1]))
    sign([0x25C7], "diamond.vw", wide, lambda pen: (
        polygon(pen, diamond),
        hole(pen, [(cx + (x - cx) * 0.66, cy + (y - cy) * 0.66) for x, y in diamond])))
    sign([0x2713], "tick.vw", wide, lambda pen: (
        stroke(pen, (edge, cy), (cx - r * 0.25, base + thick), thick * 1.3),
        stroke(pen, (cx - r * 0.42, base + thick * 0.7), (wide - edge, capital), thick * 1.3)))
    sign([0x2715], "cross.vw", wide, lambda pen: (
        stroke(pen, (edge, base), (wide - edge, base + side), thick * 1.3),
        stroke(pen, (edge, base + side), (wide - edge, base), thick * 1.3)))
    # What stands for a character that can't be shown, and the space between thousands.
    sign([0xFFFD], "replacement.vw", wide, lambda pen: (
        polygon(pen, square), hole(pen, inside),
        stroke(pen, (edge + thick, base + thick), (edge + side - thick, base + side - thick), thick * 0.7)))
    sign([0x202F, 0x2009], "narrowspace.vw", digit if mono else digit * 0.35, lambda pen: None)
    return made


def add_signs(font):
    order = font.getGlyphOrder()
    made = signs(font)
    for glyph, (codes, outline, advance) in made.items():
        order.append(glyph)
        font["glyf"].glyphs[glyph] = outline
        font["hmtx"][glyph] = (advance, 0)
        for table in font["cmap"].tables:
            for code in codes:
                if table.isUnicode() and code not in table.cmap and (code < 0x10000 or table.format == 12):
                    table.cmap[code] = glyph
    font.setGlyphOrder(order)
    font["glyf"].setGlyphOrder(order)
    for glyph in made:
        outline = font["glyf"].glyphs[glyph]
        outline.recalcBounds(font["glyf"])
        font["hmtx"][glyph] = (font["hmtx"][glyph][0], getattr(outline, "xMin", 0))


def web_font(modules, family, subset, weight):
    return TTFont(modules / "@fontsource" / family / "files" / f"{family}-{subset}-{weight}-normal.woff2")


def make(modules, family, weight, name, style):
    options = merge.Options()
    options.drop_tables = ["prep", "gasp", "STAT"]
    plain = []
    for i, part in enumerate(("latin", "latin-ext")):
        font = web_font(modules, family, part, weight)
        font.flavor = None
        plain.append(HERE / f".part-{i}.ttf")
        font.save(plain[-1])
    font = merge.Merger(options).merge([str(file) for file in plain])
    for file in plain:
        file.unlink()
    add_signs(font)
    font["post"].formatType = 3.0
    full = f"{name} {style}"
    for record in list(font["name"].names):
        said = {1: name, 2: style, 4: full, 6: full.replace(" ", "") , 16: None, 17: None}.get(record.nameID, "")
        if said is None:
            font["name"].removeNames(nameID=record.nameID)
        elif said:
            record.string = said
    font["head"].created = font["head"].modified = 3_600_000_000
    font.recalcTimestamp = False
    target = HERE / f"{full.replace(' ', '-').lower()}.ttf"
    font.save(target)
    print(target.name, target.stat().st_size, len(font.getBestCmap()))


def make_signs(modules, family, weight):
    """The signs alone, of one weight, as the interface loads them."""
    font = web_font(modules, family, "latin", weight)
    add_signs(font)
    options = subset.Options(flavor="woff2", layout_features=[], name_IDs=[0, 13, 14], notdef_outline=False)
    options.drop_tables += ["GDEF", "prep", "gasp", "STAT"]
    only = subset.Subsetter(options)
    only.populate(unicodes=LACKED)
    only.subset(font)
    font["head"].created = font["head"].modified = 3_600_000_000
    font.recalcTimestamp = False
    SIGNS.mkdir(exist_ok=True)
    target = SIGNS / f"{family}-signs-{weight}.woff2"
    subset.save_font(font, target, options)
    print(target.name, target.stat().st_size, [hex(code) for code in font.getBestCmap()])


for entry in FONTS:
    make(Path(sys.argv[1]), *entry)
for entry in INTERFACE:
    make_signs(Path(sys.argv[1]), *entry)
