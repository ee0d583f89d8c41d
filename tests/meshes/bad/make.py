"""Writes small meshes that are odd, damaged or hostile, with what a reader must do with each.

    python tests/meshes/bad/make.py

Needs only Python. `expected.json` holds for every file one of

- accepted: read as it is,
- accepted with note: read, with what is unusual about it (`note`),
- mended with note: read after a repair that is counted (`note`),
- refused: with the name of the error (`error`).
"""

import json
import math
import struct
from pathlib import Path

HERE = Path(__file__).parent
EXPECTED = {}

CORNERS = [(x, y, z) for x in (0, 10) for y in (0, 10) for z in (0, 10)]
# Outward facets of a cube, by corner number.
CUBE = [(0, 2, 4), (6, 4, 2), (1, 5, 3), (7, 3, 5), (0, 4, 1), (5, 1, 4), (2, 3, 6), (7, 6, 3), (0, 1, 2), (3, 2, 1), (4, 6, 5), (7, 5, 6)]


def cube(at=(0, 0, 0), size=1.0):
    move = lambda p: tuple(size * c + a for c, a in zip(p, at))
    return outward([tuple(move(CORNERS[i]) for i in facet) for facet in CUBE], at, 10 * size)


def outward(facets, at, edge):
    """Turns every facet of a convex body so that it looks away from its middle."""
    middle = [a + edge / 2 for a in at]
    return [f if facing(f, middle) > 0 else (f[0], f[2], f[1]) for f in facets]


def facing(facet, middle):
    a, b, c = facet
    u, v = [q - p for p, q in zip(a, b)], [q - p for p, q in zip(a, c)]
    normal = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    return sum(n * (p - m) for n, p, m in zip(normal, a, middle))


def turned(facets):
    return [(a, c, b) for a, b, c in facets]


def ball(rings=12, radius=10.0):
    at = lambda i, j: tuple(radius * c for c in (
        math.sin(math.pi * i / rings) * math.cos(2 * math.pi * (j % (2 * rings)) / (2 * rings)) if 0 < i < rings else 0.0,
        math.sin(math.pi * i / rings) * math.sin(2 * math.pi * (j % (2 * rings)) / (2 * rings)) if 0 < i < rings else 0.0,
        math.cos(math.pi * i / rings)))
    facets = []
    for i in range(rings):
        for j in range(2 * rings):
            a, b, c, d = at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)
            facets += [f for f in ((a, b, c), (a, c, d)) if len(set(f)) == 3]
    return facets


def binary(facets, header=b"bad mesh", count=None, normal=(0, 0, 0), attribute=0, tail=b""):
    body = b"".join(struct.pack("<12fH", *normal, *(c for p in f for c in p), attribute) for f in facets)
    return header.ljust(80, b" ")[:80] + struct.pack("<I", len(facets) if count is None else count) + body + tail


def text(facets, name="cube", end="\n", number="{:g}".format, last=None):
    lines = [f"solid {name}".rstrip()]
    for facet in facets:
        lines += ["facet normal 0 0 0", "outer loop"]
        lines += ["vertex " + " ".join(number(c) for c in p) for p in facet]
        lines += ["endloop", "endfacet"]
    lines.append(f"endsolid {name}".rstrip() if last is None else last)
    return end.join(lines + [""])


def write(name, content, outcome, what, note=None, error=None):
    (HERE / f"{name}.stl").write_bytes(content.encode() if isinstance(content, str) else content)
    row = {"outcome": outcome, "what": what}
    EXPECTED[name] = row | ({"note": note} if note else {}) | ({"error": error} if error else {})


def accepted(name, content, what):
    write(name, content, "accepted", what)


def noted(name, content, what, note):
    write(name, content, "accepted with note", what, note=note)


def mended(name, content, what, note):
    write(name, content, "mended with note", what, note=note)


def refused(name, content, what, error):
    write(name, content, "refused", what, error=error)


def forms():
    """Sound surfaces in every form that the wild writes."""
    accepted("binary", binary(cube()), "a cube")
    accepted("text", text(cube()), "a cube in text")
    accepted("text_dos_lines", text(cube(), end="\r\n"), "lines that end in CR LF")
    accepted("text_no_name", text(cube(), name=""), "no name")
    accepted("text_byte_order_mark", b"\xef\xbb\xbf" + text(cube()).encode(), "a mark of byte order before the first word")
    accepted("text_name_not_utf8", text(cube(), name="?").encode().replace(b"?", b"Stange \xe4\xff\xfe"), "bytes that are no UTF-8 in the name")
    accepted("text_name_utf8", text(cube(), name="труба ★"), "letters of another alphabet in the name")
    accepted("text_numbers", text(cube(), number=lambda c: f"+{c:.3E}"), "signs and exponents")
    accepted("text_shouted", text(cube()).upper(), "capitals throughout")
    accepted("header_solid", binary(cube(), header=b"solid but binary"), "a binary header that begins like text")
    accepted("header_zero", binary(cube(), header=b"\0" * 80), "a header of noughts")
    accepted("header_noise", binary(cube(), header=bytes(range(128, 208))), "a header of noise")
    accepted("tail", binary(cube(), tail=b"made by hand" * 5), "bytes after the last facet")
    accepted("attributes", binary(cube(), attribute=0x7C1F), "colours in the spare bytes")
    accepted("normals_nan", binary(cube(), normal=(math.nan,) * 3), "stored normals that are no numbers: the corners' order decides")
    accepted("normals_wrong", binary(cube(), normal=(0, 0, -1)), "stored normals that are wrong")
    accepted("far_away", binary(cube(at=(90_000, -90_000, 0))), "ninety metres from the origin")
    accepted("minus_nought", text(cube(), number=lambda c: "-0.0" if c == 0 else f"{c:g}"), "noughts with a sign")


def surfaces():
    """What is wrong with the surface."""
    ten = cube()
    soft = ball()
    mended("collapsed_facet", binary(ten + [(CORNERS[0], CORNERS[0], CORNERS[7])]), "a facet with two equal corners", "degenerate")
    mended("last_digit", binary([tuple(tuple(c * (1 + 1e-7 * (i % 2)) for c in p) for p in f) for i, f in enumerate(soft)]),
           "corners that differ in the last digit", "rounded")
    mended("hole_of_one_facet", binary(soft[:100] + soft[101:]), "a ball without one of its facets", "capped")
    refused("hole_of_a_face", binary(ten[2:]), "a cube without one face", "Open")
    refused("one_facet", binary(ten[:1]), "one facet alone", "Open")
    refused("sheet", binary([f for f in ten if all(p[2] == 0 for p in f)]), "an open sheet", "Open")
    refused("folded_sheet", binary(ten[:1] + turned(ten[:1])), "a facet and its back", "NoVolume")
    refused("fin", binary(ten + [(CORNERS[0], CORNERS[1], (-5, -5, 5))]), "a facet that stands on an edge", "NonManifold")
    refused("shared_edge", binary(ten + cube(at=(10, 10, 0))), "two cubes that share an edge", "NonManifold")
    noted("shared_corner", binary(ten + cube(at=(10, 10, 10))), "two cubes that share a corner: shells that touch", "overlap")
    mended("one_flipped", binary([turned(ten[:1])[0]] + ten[1:]), "one facet turned", "turned")
    refused("inside_out", binary(turned(ten)), "every facet turned: as a mirrored part is written", "InsideOut")
    refused("twice", binary(ten + ten), "every facet twice", "NonManifold")
    refused("twice_turned", binary(ten + turned(ten)), "a cube and its inside", "NonManifold")
    refused("mobius", binary(mobius()), "a band with one side", "NonManifold")
    refused("crossing_quad", binary(bow_tie()), "a prism that crosses itself: as much inside as out", "NoVolume")
    noted("void", binary(cube(size=3) + turned(cube(at=(10, 10, 10)))), "a closed void inside", "void")
    refused("void_outside", binary(ten + turned(cube(at=(20, 0, 0)))), "a void beside the body", "InsideOut")
    noted("nested", binary(cube(size=3) + cube(at=(10, 10, 10))), "a body inside another", "overlap")
    noted("overlapping", binary(ten + cube(at=(5, 5, 5))), "two bodies that overlap", "overlap")
    noted("apart", binary(ten + cube(at=(30, 0, 0))), "two bodies apart", "several bodies")
    noted("two_solids", text(ten) + text(cube(at=(30, 0, 0))), "two solids in one text", "several bodies")
    noted("touching_faces", binary(ten + cube(at=(10, 2, 2), size=0.5)), "a body on the face of another", "overlap")
    refused("point", binary([((1, 1, 1),) * 3] * 12), "every corner in one place", "Empty")
    refused("line", binary([((0, 0, 0), (1, 0, 0), (2, 0, 0)), ((0, 0, 0), (2, 0, 0), (1, 0, 0))]), "facets without area", "NoVolume")
    accepted("thousandth", binary(cube(size=1e-4)), "a cube of a thousandth of a millimetre")


def mobius(count=12):
    at = lambda i, side: ((20 + side * math.cos(math.pi * i / count)) * math.cos(2 * math.pi * i / count),
                          (20 + side * math.cos(math.pi * i / count)) * math.sin(2 * math.pi * i / count),
                          side * math.sin(math.pi * i / count))
    edge = lambda i: (at(i, 5), at(i, -5)) if i < count else (at(0, -5), at(0, 5))
    facets = []
    for i in range(count):
        (a, b), (c, d) = edge(i), edge(i + 1)
        facets += [(a, b, c), (c, b, d)]
    return facets


def bow_tie():
    low = [(0, 0, 0), (10, 0, 0), (0, 10, 0), (10, 10, 0)]
    high = [(x, y, 10) for x, y, _ in low]
    sides = [f for k in range(4) for f in ((low[k], low[(k + 1) % 4], high[(k + 1) % 4]), (low[k], high[(k + 1) % 4], high[k]))]
    return sides + [(low[0], low[2], low[1]), (low[0], low[3], low[2]), (high[0], high[1], high[2]), (high[0], high[2], high[3])]


def numbers():
    """Coordinates that are none."""
    spoiled = lambda value: [((value, 0, 0),) + f[1:] if i == 5 else f for i, f in enumerate(cube())]
    refused("nan", binary(spoiled(math.nan)), "a coordinate that is no number", "BadCoordinate")
    refused("infinity", binary(spoiled(math.inf)), "an infinite coordinate", "BadCoordinate")
    refused("huge", binary(spoiled(-3e38)), "a coordinate of 3e38", "BadCoordinate")
    refused("twenty_kilometres", binary(cube(size=2e6)), "a cube of twenty kilometres", "BadCoordinate")
    accepted("underflow", binary(cube(size=1e-41)), "a cube of 1e-40 mm: read, and far too small for any part")
    refused("text_nan", text(cube()).replace("10", "nan", 1), "nan in text", "Syntax")
    refused("text_infinity", text(cube()).replace("10", "inf", 1), "inf in text", "Syntax")
    refused("text_overflow", text(cube()).replace("10", "1e999", 1), "a number too large for any float", "Syntax")
    refused("text_hexadecimal", text(cube()).replace("10", "0x0A", 1), "a hexadecimal number", "Syntax")
    refused("text_decimal_comma", text(cube(), number=lambda c: f"{c:.1f}".replace(".", ",")), "decimal commas", "Syntax")
    refused("text_huge", text(cube()).replace("10", "1e30", 1), "1e30 in text", "BadCoordinate")


def lengths():
    """Files that are not as long as they say."""
    whole = binary(cube())
    refused("empty", b"", "no bytes", "Empty")
    refused("blank", " \r\n\t\n", "white space", "Empty")
    refused("header_alone", b"bad mesh".ljust(80), "a header and nothing else", "NotStl")
    refused("no_facets", b"\0" * 84, "a binary file of no facets", "Empty")
    refused("four_billion", binary(cube(), count=0xFFFF_FFFF), "announces four billion facets", "Truncated")
    refused("two_hundred_million", binary(cube(), count=200_000_000), "announces two hundred million", "Truncated")
    refused("one_short", binary(cube(), count=13), "announces one facet more than follow", "Truncated")
    refused("count_nought", binary(cube(), count=0), "announces no facets, yet some follow", "Truncated")
    refused("cut_in_facet", whole[:400], "cut within a facet", "Truncated")
    refused("cut_in_header", whole[:60], "cut within the header", "NotStl")
    refused("cut_solid", binary(cube(), header=b"solid")[:500], "cut, with a header that begins like text", "Truncated")
    refused("text_cut", text(cube())[:700], "text cut within a vertex", "Syntax")
    refused("text_no_end", text(cube(), last=""), "no last word", "Syntax")
    refused("text_no_facets", "solid\nendsolid\n", "text without facets", "Empty")
    refused("text_solid_alone", "solid", "one word", "Syntax")
    refused("text_old_lines", text(cube(), end="\r"), "lines that end in CR alone, unused for decades", "Syntax")


def words():
    """Text that is not of the form."""
    one = text(cube())
    refused("text_four_corners", one.replace("endloop", "vertex 1 2 3\nendloop", 1), "a facet of four corners", "Syntax")
    refused("text_two_corners", one.replace("vertex 0 0 0\n", "", 1), "a facet of two corners", "Syntax")
    refused("text_stray_corner", one.replace("facet normal", "vertex 1 2 3\nfacet normal", 1), "a corner outside a facet", "Syntax")
    refused("text_nested", one.replace("outer loop", "facet normal 0 0 0", 1), "a facet within a facet", "Syntax")
    refused("text_never_began", one.replace("facet normal 0 0 0\nouter loop", "endfacet", 1), "a facet ends that never began", "Syntax")
    refused("text_two_numbers", one.replace("vertex 0 0 0", "vertex 0 0", 1), "a corner of two numbers", "Syntax")
    refused("text_four_numbers", one.replace("vertex 0 0 0", "vertex 0 0 0 0", 1), "a corner of four numbers", "Syntax")
    refused("text_unknown_word", one.replace("outer loop", "colour red", 1), "an unknown word", "Syntax")
    refused("text_noise_in_number", one.replace("vertex 0 0 0", "vertex 0 \ufffd\u202e 0", 1), "noise for a number", "Syntax")
    refused("text_nought_byte", one.replace("outer loop", "outer\0loop", 1), "a nought byte within text", "Truncated")
    refused("text_long_line", "solid " + "x" * 20_000, "a line of twenty thousand letters", "Syntax")


def others():
    """Files of another kind under this name."""
    refused("prose", "This is a note about a part, not the part itself. It goes on for longer than a header does, in words.\n", "prose", "OtherKind")
    refused("wide_text", text(cube()).encode("utf-16"), "text in two bytes a letter", "OtherKind")
    refused("compressed", b"\x1f\x8b\x08\x00" + bytes((i * 37 + 11) % 256 for i in range(300)), "a compressed file", "OtherKind")
    refused("container", b"PK\x03\x04" + bytes((i * 53 + 7) % 256 for i in range(300)), "a container of another mesh format", "OtherKind")
    refused("markup", '<?xml version="1.0"?>\n<model unit="millimetre">\n<mesh><vertices/></mesh>\n</model>\n' * 2, "markup", "OtherKind")
    refused("vertex_list", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n" * 4, "another mesh format in text", "OtherKind")
    refused("noughts", b"\0" * 1000, "a thousand nought bytes", "Truncated")
    refused("ones", b"\xff" * 1000, "a thousand bytes of ones", "Truncated")


for part in (forms, surfaces, numbers, lengths, words, others):
    part()
for stale in HERE.glob("*.stl"):
    if stale.stem not in EXPECTED:
        stale.unlink()
(HERE / "expected.json").write_text(json.dumps(dict(sorted(EXPECTED.items())), indent=1, ensure_ascii=False) + "\n")
