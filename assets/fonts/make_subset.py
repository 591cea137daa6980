"""Makes the three faces in this folder from the Inter 3.19 OTF files.

Usage: python3 make_subset.py FOLDER_WITH_INTER_OTF   (needs fonttools)

What it changes, so that the files are a Modified Version in the sense of the
SIL Open Font License: keeps only the signs below, makes tabular figures the
default digits without kerning, adds five signs that Inter lacks (drawn here or
built from its own outlines), and renames the family to "Inter Potset".
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.misc.transform import Transform
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

SIGNS = (
    "←↑→↓↔↩↪↶↷↺↻✓✗×÷±≈≤≥≠−°µμ·•…–—‘’“”‹›½¼¾⅓⅔⅛⅜⅝⅞"
    "₀₁₂₃₄₅₆₇₈₉⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺▲▼▶◀▸▾●○◆■□⚠★☆′″‰√∞∆∂∑€₹₩₺₽₫₱₴₦₪\u2009\u00a0\u202f\u2011"
)
WANTED = (
    set(range(0x20, 0x7F))
    | set(range(0xA0, 0x180))
    | {0x218, 0x219, 0x21A, 0x21B, 0x1E9E}
    | set(range(0x391, 0x3CA))
    | {ord(c) for c in SIGNS}
)
FACES = {"Regular": 200, "SemiBold": 290, "Italic": 200}  # name: stroke of drawn arrows
K = 0.5523  # Bezier handle of a quarter circle


def contours(font, char):
    """The outline of one sign as a list of contours, each a list of pen calls."""
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[font.getBestCmap()[ord(char)]].draw(pen)
    out, now = [], []
    for call in pen.value:
        now.append(call)
        if call[0] in ("closePath", "endPath"):
            out.append(now)
            now = []
    return out


def bounds(contour):
    points = [p for _, args in contour for p in args]
    return min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)


def replay(font, parts, width):
    """A new charstring from (contour, transform) pairs."""
    private = font["CFF "].cff.topDictIndex[0].Private
    pen = T2CharStringPen(width - private.nominalWidthX, None)
    for contour, how in parts:
        target = TransformPen(pen, how)
        for name, args in contour:
            getattr(target, name)(*args)
    return pen.getCharString(private=private)


def add(font, char, charstring, width):
    top = font["CFF "].cff.topDictIndex[0]
    name = f"uni{ord(char):04X}"
    top.CharStrings.charStringsIndex.append(charstring)
    top.CharStrings.charStrings[name] = len(top.CharStrings.charStringsIndex) - 1
    if name not in top.charset:
        top.charset.append(name)
    font.setGlyphOrder(top.charset)
    font["hmtx"].metrics[name] = (width, 0)
    font["maxp"].numGlyphs = len(top.charset)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[ord(char)] = name


def turn_arrow(stroke):
    """A half circle over the top with an arrow head at its left end."""
    cx, cy, r = 1344, 760, 800
    o, i = r + stroke / 2, r - stroke / 2
    arc = [
        ("moveTo", ((cx - o, cy),)),
        ("curveTo", ((cx - o, cy + o * K), (cx - o * K, cy + o), (cx, cy + o))),
        ("curveTo", ((cx + o * K, cy + o), (cx + o, cy + o * K), (cx + o, cy))),
        ("lineTo", ((cx + o, cy - 260),)),
        ("lineTo", ((cx + i, cy - 260),)),
        ("lineTo", ((cx + i, cy),)),
        ("curveTo", ((cx + i, cy + i * K), (cx + i * K, cy + i), (cx, cy + i))),
        ("curveTo", ((cx - i * K, cy + i), (cx - i, cy + i * K), (cx - i, cy))),
        ("closePath", ()),
    ]
    half = 330 + stroke / 2
    head = [
        ("moveTo", ((cx - r - half, cy + 10),)),
        ("lineTo", ((cx - r + half, cy + 10),)),
        ("lineTo", ((cx - r, cy - 560),)),
        ("closePath", ()),
    ]
    return [arc, head]


def draw_missing(font, stroke):
    same = Transform()
    # Two thirds: the slash and 3 of one third, the 2 of one half raised to the 1's place.
    third, half = contours(font, "⅓"), contours(font, "½")
    width = font["hmtx"][font.getBestCmap()[ord("⅓")]][0]
    one = min(third, key=lambda c: bounds(c)[0] - bounds(c)[1] / 4)
    two = max(half, key=lambda c: bounds(c)[0])
    (ox0, oy0, ox1, _), (tx0, ty0, tx1, _) = bounds(one), bounds(two)
    grow = int((tx1 - tx0) - (ox1 - ox0)) // 2
    raised = Transform(1, 0, 0, 1, ox0 - tx0 + 40, oy0 - ty0)
    parts = [(c, Transform(1, 0, 0, 1, grow, 0)) for c in third if c is not one] + [(two, raised)]
    add(font, "⅔", replay(font, parts, width + grow), width + grow)
    for small, big in (("▸", "▶"), ("▾", "▼")):
        shape = contours(font, big)
        x0, y0, x1, y1 = bounds(shape[0])
        scale, width = 0.62, 2000
        how = Transform(scale, 0, 0, scale, width / 2 - scale * (x0 + x1) / 2, 1024 - scale * (y0 + y1) / 2)
        add(font, small, replay(font, [(c, how) for c in shape], width), width)
    arrow = turn_arrow(stroke)
    add(font, "↶", replay(font, [(c, same) for c in arrow], 2688), 2688)
    # Mirrored; contours run the other way round, so both arc and head stay filled alike.
    mirror = Transform(-1, 0, 0, 1, 2688, 0)
    add(font, "↷", replay(font, [(c, mirror) for c in arrow], 2688), 2688)


def set_width(font, glyph, width):
    top = font["CFF "].cff.topDictIndex[0]
    pen = T2CharStringPen(width - top.Private.nominalWidthX, None)
    font.getGlyphSet()[glyph].draw(pen)
    top.CharStrings[glyph] = pen.getCharString(private=top.Private)
    font["hmtx"].metrics[glyph] = (width, font["hmtx"][glyph][1])


def tabular_digits(font):
    """The tabular figures become the digits; they take no part in kerning."""
    gsub = font["GSUB"].table
    lookups = next(f.Feature.LookupListIndex for f in gsub.FeatureList.FeatureRecord if f.FeatureTag == "tnum")
    mapping = {}
    for index in lookups:
        for table in gsub.LookupList.Lookup[index].SubTable:
            mapping.update(getattr(table, "ExtSubTable", table).mapping)
    for table in font["cmap"].tables:
        if table.isUnicode():
            for code in range(0x30, 0x3A):
                table.cmap[code] = mapping.get(table.cmap[code], table.cmap[code])
    digits = {font.getBestCmap()[code] for code in range(0x30, 0x3A)}
    widths = {font["hmtx"][d][0] for d in digits}
    assert max(widths) - min(widths) <= 4, f"digits differ in width: {widths}"
    for digit in digits:  # some faces are a rounding unit apart
        set_width(font, digit, max(widths))
    for lookup in font["GPOS"].table.LookupList.Lookup:
        for table in lookup.SubTable:
            table = getattr(table, "ExtSubTable", table)
            if table.LookupType != 2:
                continue
            if table.Format == 1:
                kept = [(g, s) for g, s in zip(table.Coverage.glyphs, table.PairSet) if g not in digits]
                for _, pairs in kept:
                    pairs.PairValueRecord = [r for r in pairs.PairValueRecord if r.SecondGlyph not in digits]
                table.Coverage.glyphs, table.PairSet = [g for g, _ in kept], [s for _, s in kept]
            else:
                table.Coverage.glyphs = [g for g in table.Coverage.glyphs if g not in digits]
                for classes in (table.ClassDef1, table.ClassDef2):
                    for digit in digits:
                        classes.classDefs.pop(digit, None)


def rename(font, face):
    family = "Inter Potset"
    names = font["name"]
    for record in list(names.names):
        if record.nameID in (3, 16, 17, 18, 20, 21, 22, 25):
            names.removeNames(nameID=record.nameID)
    plain = face in ("Regular", "Italic")
    for ident, text in {
        1: family if plain else f"{family} {face}",
        2: face if plain else "Regular",
        3: f"{family} {face}, subset of Inter 3.19",
        4: f"{family} {face}",
        6: f"InterPotset-{face}",
        16: family,
        17: face,
    }.items():
        names.setName(text, ident, 3, 1, 0x409)
    font["OS/2"].usWeightClass = 600 if face == "SemiBold" else 400
    top = font["CFF "].cff
    top.fontNames = [f"InterPotset-{face}"]
    top.topDictIndex[0].FullName = f"{family} {face}"
    top.topDictIndex[0].FamilyName = family


def main():
    source = Path(sys.argv[1])
    for face, stroke in FACES.items():
        font = TTFont(source / f"Inter-{face}.otf")
        draw_missing(font, stroke)
        tabular_digits(font)
        options = subset.Options()
        options.layout_features = ["ccmp", "locl", "kern", "mark"]
        options.name_IDs = ["*"]
        options.hinting = False
        options.desubroutinize = False
        options.notdef_outline = True
        worker = subset.Subsetter(options)
        worker.populate(unicodes=WANTED)
        worker.subset(font)
        rename(font, face)
        target = Path(__file__).with_name(f"Inter-{face}.otf")
        font.save(target)
        present = set(TTFont(target).getBestCmap())
        missing = "".join(chr(c) for c in sorted(WANTED - present))
        print(f"{target.name}: {target.stat().st_size / 1000:.0f} kB, missing {missing!r}")


if __name__ == "__main__":
    main()
