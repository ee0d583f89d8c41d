"""Measures the colour scale in a painted 3MF: evenness, lightness, and how it is seen with colour vision deficiency.

usage: python check_scale.py PAINTED.3mf
"""

import sys

import colour
import lib3mf
import numpy as np

import scale
import vision

# Rounding to eight bits moves a colour by about as much as two neighbours of the 256 are apart. So evenness is measured on
# the colours before rounding, which check_paint.py holds against the file, and between every eighth: far enough apart
# to be seen.
STRIDE = 8

# Measured 1.15, 1.34, 2.09 and 1.93, with room for another version of the libraries. The scale is even in CAM16-UCS, of
# which CAM02-UCS is the independent elder; with a deficiency one of three dimensions is lost, and some evenness with it.
MOST_UNEVEN = {"usual vision": 1.2, "protan": 1.4, "deutan": 2.2, "tritan": 2.0}

# Measured 1.31: CIEDE2000 and CAM16-UCS differ by that much about what is even.
MOST_UNEVEN_CIEDE2000 = 1.4

# About one unit of CAM02-UCS is just seen side by side; between an eighth and the next there must be more than that.
LEAST_STEP = 1.5

# Ends, and the grey against every step, must differ at a glance: many just-seen steps. Measured 60 and 24 at the least.
LEAST_ENDS = 50.0
LEAST_FROM_GREY = 20.0

faults = []


def check(what, good, told):
    print(f"{'ok   ' if good else 'FAULT'} {what}: {told}")
    if not good:
        faults.append(what)


def even(what, step, most):
    ratio = step.max() / step.min()
    told = f"{step.min():.2f} to {step.max():.2f} between every {STRIDE}th, ratio {ratio:.2f}"
    check(f"{what}: even steps", ratio <= most and step.min() >= LEAST_STEP, told)


def colors(path):
    model = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(path)
    groups = model.GetColorGroups()
    groups.MoveNext()
    group = groups.GetCurrentColorGroup()
    table = [group.GetColor(number) for number in group.GetAllPropertyIDs()]
    table = np.array([(c.Red, c.Green, c.Blue) for c in table]) / 255
    group = model.GetMetaDataGroup()
    said = {e.GetName(): e.GetValue() for e in map(group.GetMetaData, range(group.GetMetaDataCount()))}
    steps, grey = table[:-1], table[-1]
    return (steps[::-1] if said["bad-end"] == "low" else steps), grey


def main():
    steps, grey = colors(sys.argv[1])
    print(f"{len(steps)} steps, good end {np.rint(steps[0] * 255)}, bad end {np.rint(steps[-1] * 255)}")
    difference = int(np.abs(np.rint(steps * 255) - np.rint(np.clip(scale.good_to_bad(), 0, 1) * 255)).max())
    check("as scale.py makes it", difference <= 1, f"differs by at most {difference} of 255")
    oklab = colour.XYZ_to_Oklab(colour.sRGB_to_XYZ(steps))
    fall = np.diff(oklab[:, 0])
    # A step falls by 0.0018; rounding one channel to eight bits moves lightness by up to about 0.001.
    check("OKLab lightness falls", fall.max() <= 1e-3, f"{oklab[0, 0]:.3f} to {oklab[-1, 0]:.3f}")
    chroma = np.hypot(oklab[:, 1], oklab[:, 2])
    check("the bad end is the most saturated", chroma[-1] >= chroma.max() - 1e-3, f"{chroma[0]:.3f} to {chroma[-1]:.3f}")

    spaced = np.clip(scale.good_to_bad(), 0, 1)[STRIDE // 2 :: STRIDE]
    lab = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(spaced))
    step = colour.delta_E(lab[1:], lab[:-1], method="CIE 2000")
    even("CIEDE2000", step, MOST_UNEVEN_CIEDE2000)
    for name in vision.DEFICIENCIES:
        seen = vision.cam02_ucs(vision.seen(spaced, name))
        even(f"{name}: CAM02-UCS", np.linalg.norm(np.diff(seen, axis=0), axis=1), MOST_UNEVEN[name])
        check(f"{name}: lightness falls", bool((np.diff(seen[:, 0]) < 0).all()), f"{seen[0, 0]:.1f} to {seen[-1, 0]:.1f}")
        every = vision.cam02_ucs(vision.seen(steps, name))
        ends = np.linalg.norm(every[0] - every[-1])
        check(f"{name}: between the ends", ends >= LEAST_ENDS, f"{ends:.1f}")
        apart = np.linalg.norm(every - vision.cam02_ucs(vision.seen(grey[None], name)), axis=1).min()
        check(f"{name}: least distance from the grey", apart >= LEAST_FROM_GREY, f"{apart:.1f}")
    print(f"{len(faults)} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
