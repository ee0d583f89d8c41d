"""Reads a painted 3MF and PLY with general-purpose libraries and compares them with the numbers they were made from.

usage: python check_paint.py PAINTED.3mf PAINTED.ply NUMBERS.json
"""

import json
import sys
import zipfile

import lib3mf
import numpy as np
import plyfile
import trimesh

import scale

# Rounding to 8 bits may fall either way where two libraries differ in the last digits.
COLOR_TOLERANCE = 1

# The program turns corners into the frame of the part and back, which leaves some 1e-15 of a part's size at zero.
POINT_TOLERANCE_MM = 1e-9

faults = []


def check(what, good, told=""):
    print(("ok    " if good else "FAULT ") + what + (f": {told}" if told != "" else ""))
    if not good:
        faults.append(what)


def expected(numbers):
    quantity = numbers["quantity"]
    measured = np.array([value is not None for value in numbers["values"]])
    values = np.array([0.0 if value is None else value for value in numbers["values"]])
    steps = np.where(measured, scale.step_of(values, quantity["low"], quantity["high"]), scale.STEPS)
    table = np.vstack([scale.low_to_high(quantity["bad_end"]), scale.NOT_MEASURED])
    return {
        "points": np.array(numbers["points_mm"], dtype=np.float64).astype(np.float32),
        "facets": np.array(numbers["facets"]),
        "measured": measured,
        "values": values.astype(np.float32),
        "steps": steps,
        "colors": table[steps],
        "table": table,
    }


def same_colors(what, found, wanted):
    difference = int(np.abs(np.asarray(found, dtype=int) - wanted).max())
    check(what, difference <= COLOR_TOLERANCE, f"differ by at most {difference} of 255")


def same_points(found, wanted):
    if found.shape != wanted.shape:
        return False
    # Elsewhere the same bits, in single precision.
    return bool(np.all((found == wanted) | (np.abs(found - wanted) <= POINT_TOLERANCE_MM)))


def package(path):
    with zipfile.ZipFile(path) as archive:
        check("3MF: zip is sound", archive.testzip() is None)
        names = archive.namelist()
        check("3MF: parts", names == ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"], names)
        entries = archive.infolist()
        check("3MF: no clock", all(entry.date_time == (1980, 1, 1, 0, 0, 0) for entry in entries))
        check("3MF: deflate only", all(entry.compress_type == zipfile.ZIP_DEFLATED for entry in entries))


def three_mf(path, wanted, quantity):
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(path)
    check("3MF, lib3mf, strict: warnings", reader.GetWarningCount() == 0, reader.GetWarningCount())
    check("3MF, lib3mf: unit", model.GetUnit() == lib3mf.ModelUnit.MilliMeter)

    objects = model.GetMeshObjects()
    check("3MF, lib3mf: one mesh", objects.Count() == 1)
    objects.MoveNext()
    mesh = objects.GetCurrentMeshObject()
    points = np.array([list(v.Coordinates) for v in mesh.GetVertices()], dtype=np.float32)
    facets = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()])
    check("3MF, lib3mf: points", same_points(points, wanted["points"]), len(points))
    check("3MF, lib3mf: facets", np.array_equal(facets, wanted["facets"]), len(facets))
    check("3MF, lib3mf: closed and oriented", mesh.IsManifoldAndOriented())
    check("3MF, lib3mf: valid", mesh.IsValid())
    items = model.GetBuildItems()
    check("3MF, lib3mf: one build item", items.Count() == 1)

    groups = model.GetColorGroups()
    check("3MF, lib3mf: one colour group", groups.Count() == 1)
    groups.MoveNext()
    group = groups.GetCurrentColorGroup()
    numbers = group.GetAllPropertyIDs()
    table = {n: (c.Red, c.Green, c.Blue) for n, c in ((n, group.GetColor(n)) for n in numbers)}
    check("3MF, lib3mf: colours in the group", len(table) == scale.STEPS + 1, len(table))
    same_colors("3MF, lib3mf: the scale", [table[n] for n in numbers], wanted["table"])
    properties = mesh.GetAllTriangleProperties()
    check("3MF, lib3mf: all facets use the group", all(p.ResourceID == group.GetResourceID() for p in properties))
    place = {n: index for index, n in enumerate(numbers)}
    corners = np.array([[place[n] for n in p.PropertyIDs] for p in properties])
    check("3MF, lib3mf: one colour per facet", bool((corners == corners[:, :1]).all()))
    check("3MF, lib3mf: colour step of every facet", np.array_equal(corners[:, 0], wanted["steps"]))

    group = model.GetMetaDataGroup()
    said = {}
    for index in range(group.GetMetaDataCount()):
        entry = group.GetMetaData(index)
        said[entry.GetName()] = entry.GetValue()
    check("3MF, lib3mf: quantity", said["quantity"] == quantity["title"], said["quantity"])
    check("3MF, lib3mf: unit of values", said["unit"] == (quantity["unit"] or "1"), said["unit"])
    check("3MF, lib3mf: range", np.allclose([float(said["low"]), float(said["high"])], [quantity["low"], quantity["high"]]))
    check("3MF, lib3mf: words", "colour steps" in said["Description"], said["Description"])


def ply(path, wanted, quantity):
    data = plyfile.PlyData.read(path)
    check("PLY, plyfile: binary little-endian", not data.text and data.byte_order == "<")
    vertices, faces = data["vertex"], data["face"]
    points = np.stack([vertices[axis] for axis in "xyz"], axis=-1)
    check("PLY, plyfile: points", same_points(points, wanted["points"]), len(points))
    check("PLY, plyfile: facets", np.array_equal(np.vstack(faces["vertex_indices"]), wanted["facets"]), len(faces.data))
    same_colors("PLY, plyfile: colours", np.stack([faces[c] for c in ("red", "green", "blue")], -1), wanted["colors"])
    measured = np.asarray(faces["measured"]) == 1
    check("PLY, plyfile: measured", np.array_equal(measured, wanted["measured"]), int(measured.sum()))
    value = np.asarray(faces["value"])
    check("PLY, plyfile: values", np.array_equal(value[measured], wanted["values"][measured]))
    check("PLY, plyfile: no value where not measured", bool((value[~measured] == -1).all()))
    check("PLY, plyfile: quantity", f"quantity: {quantity['title']}" in data.comments)
    for comment in data.comments:
        print("         " + comment)


def by_trimesh(three_mf_path, ply_path, wanted):
    for path in (three_mf_path, ply_path):
        mesh = trimesh.load(path, process=False, force="mesh")
        counts = (len(mesh.vertices), len(mesh.faces))
        check(f"{path[-3:].upper()}, trimesh: counts", counts == (len(wanted["points"]), len(wanted["facets"])), counts)
        check(f"{path[-3:].upper()}, trimesh: closed", mesh.is_watertight and mesh.volume > 0, f"{mesh.volume:.1f} mm³")
    same_colors("PLY, trimesh: colours", mesh.visual.face_colors[:, :3], wanted["colors"])


def main():
    three_mf_path, ply_path, json_path = sys.argv[1:]
    with open(json_path) as file:
        numbers = json.load(file)
    wanted = expected(numbers)
    package(three_mf_path)
    three_mf(three_mf_path, wanted, numbers["quantity"])
    ply(ply_path, wanted, numbers["quantity"])
    by_trimesh(three_mf_path, ply_path, wanted)
    print(f"{len(faults)} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
