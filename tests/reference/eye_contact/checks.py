"""Checks of the study against closed forms and handbook relations, one row each."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

import family
from contact import SIGN, distributed, press, with_elastic_pin
from elastic import BoreResponse, Part, Rays
from mesh import Fineness, build, eye, plate, ring

# Bore elements of one degree, for states without a contact end to resolve.
COARSE = Fineness(around=180, radial=18, growth=1.22)
# The same at the bore, with rays that reach far.
WIDE = Fineness(around=180, radial=36, growth=1.25)
# Bore elements of half a degree.
MIDDLE = Fineness(around=360, radial=30, growth=1.14)
# Bore elements of a quarter degree; the table's are a third.
FINE = Fineness(around=720, radial=44, growth=1.09)


@cache
def _table_eye(width_ratio: float) -> family.Eye:
    return family.prepare(width_ratio)


@dataclass(frozen=True)
class Row:
    """One comparison; `passed` is None for a difference that is told but not judged."""

    name: str
    passed: bool | None
    text: str


def near(name: str, found: float, expected: float, tolerance: float) -> Row:
    """Passes within a tolerance, relative to the expected value unless that is zero."""
    away = abs(found - expected) / (abs(expected) or 1.0)
    return Row(name, away <= tolerance,
               f"{found:.5g}, expected {expected:.5g}, difference {away:.2g}, allowed {tolerance:g}")


def at_least(name: str, found: float, least: float) -> Row:
    """Passes when the value is not below a floor."""
    return Row(name, found >= least, f"{found:.3g}, at least {least:g}")


def at_most(name: str, found: float, most: float) -> Row:
    """Passes when the value is not above a ceiling."""
    return Row(name, found <= most, f"{found:.4g}, at most {most:g}")


def note(name: str, found: float, beside: float) -> Row:
    """A difference that is told but not judged."""
    return Row(name, None, f"{found:.4g} beside {beside:.4g}, {100.0 * (found / beside - 1.0):+.1f} %")


def _tension(hole_over_width: float) -> float:
    outline = plate(1.0 / hole_over_width)
    _, hoop, force = Part(build(outline, WIDE)).stretched(-outline.left_end, outline.right_end)
    net = force / (2.0 / hole_over_width - 2.0)
    return float(hoop.max() / net)


def plate_with_hole() -> list[Row]:
    """Tension of a strip with a free hole."""
    # 3 %: the tolerance of the project's field solve against the same relations. 2 % for Kirsch:
    # an infinite plate differs by a term of order (d/W)^2 only.
    rows = [near("Kirsch: d/W = 0.02, Kt on the gross section", _tension(0.02) / 0.98, 3.0, 0.02)]
    for ratio in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6):
        found = _tension(ratio)
        left = 1.0 - ratio
        short = 2.0 + left**3
        longer = 2.0 + 0.284 * left - 0.600 * left**2 + 1.32 * left**3
        # 4 % at 0.6: there the short fit lies 1.8 % below the longer one, its own error.
        rows.append(near(f"hole in a strip, d/W = {ratio}, net Kt, Heywood fit", found, short, 0.03 if ratio < 0.6 else 0.04))
        rows.append(near(f"hole in a strip, d/W = {ratio}, net Kt, Peterson fit (memory)", found, longer, 0.02))
    return rows


def thick_ring() -> list[Row]:
    """A ring under uniform pressure, by Lame."""
    rows = []
    side = np.array([np.pi / 2])
    for ratio in (1.25, 2.0, 3.0):
        part = Part(build(ring(ratio), COARSE))
        response = part.response(part.one_dof(), Rays.hoop(side, ratio))
        force = distributed(response, np.ones_like)
        bore, outer = response.bore_hoop @ force, response.ray_stress @ force
        square = ratio**2
        # 1 %: the accuracy asked of the peak; the mesh does far better.
        rows.append(near(f"Lame ring W/d = {ratio}, bore hoop", float(bore.max()), (square + 1) / (square - 1), 0.01))
        rows.append(near(f"Lame ring W/d = {ratio}, bore hoop, least", float(bore.min()), (square + 1) / (square - 1), 0.01))
        rows.append(near(f"Lame ring W/d = {ratio}, outer hoop", float(outer[0]), 2 / (square - 1), 0.01))
    return rows


def cosine_in_wide_plate() -> list[Row]:
    """Cosine pressure on a hole in an infinite plate: hoop stress at 90 degrees is 4 P / (pi^2 R)."""
    outline = plate(25.0)
    part = Part(build(outline, WIDE))
    held = np.concatenate([part.end_dofs(-outline.left_end), part.end_dofs(outline.right_end)])
    response = part.response(held, Rays.hoop(np.array([np.pi / 2]), 2.0))
    force = distributed(response, lambda a: 2.0 / np.pi * np.maximum(np.cos(a), 0.0))
    side = np.interp(np.pi / 2, response.bore_angle, response.bore_hoop @ force)
    # 1 %: the finite width adds a term of order (d/W)^2 = 0.2 %.
    return [near("cosine push in a wide plate, hoop x R / P at 90 degrees", float(side), 4.0 / np.pi**2, 0.01)]


def hertz() -> list[Row]:
    """A light load on a loose pin, by Hertz: half-width^2 = 4 P' R^2 / (pi E c)."""
    load = 0.005
    thick = _table_eye(3.0)
    rows = []
    for direction in SIGN:
        state = family.solve(thick, direction, load)
        half = np.sqrt(4.0 * load / np.pi)
        # 4 %: Hertz takes the eye for a half-plane (error of order half^2 and of the ring's
        # bending, which spreads a pull), and one bore element is 7 % of the half-width.
        rows.append(near(f"Hertz contact half-angle, {direction}, W/d = 3, degrees", state.half_angle_deg, np.degrees(half), 0.04))
        rows.append(near(f"Hertz peak pressure x d t / P, {direction}, W/d = 3", state.peak_pressure, 4.0 / (np.pi * half), 0.04))
    return rows


def equilibrium() -> list[Row]:
    """What goes in at the pin comes out of the held end, and through the side ligaments."""
    rows = []
    for ratio in (1.25, 2.0, 3.0):
        outline = eye(ratio)
        part = Part(build(outline, MIDDLE))
        node, weight = np.polynomial.legendre.leggauss(60)
        radii = 1.0 + (ratio - 1.0) * 0.5 * (node + 1.0)
        response = part.response(part.end_dofs(-outline.left_end), Rays.hoop(np.full(60, np.pi / 2), radii))
        for direction in SIGN:
            bearing = press(response, direction, 1.0)
            sign = SIGN[direction]
            # 1e-8: round-off of the factored stiffness.
            rows.append(near(f"end force / pin force, {direction}, W/d = {ratio}", float(-sign * response.reaction @ bearing.force), 1.0, 1e-8))
            rows.append(near(f"pressure resultant / pin force, {direction}, W/d = {ratio}", float(sign * response.resultant(bearing.force)), 1.0, 1e-8))
            # Free-body of the part right of the section at 90 degrees: both ligaments carry the
            # x-resultant of the pressure on that part.
            right = np.cos(response.node_angle) > 0.0
            carried = 2.0 * float(np.cos(response.node_angle[right]) @ bearing.force[right])
            ligament = float((ratio - 1.0) * weight @ (response.ray_stress @ bearing.force))
            # 0.5 % of P: stress is one order less exact than movement, and the ray's end
            # elements meet the contact's end.
            rows.append(near(f"side ligaments - pressure ahead of 90 degrees, {direction}, W/d = {ratio}", ligament - carried, 0.0, 0.005))
            rows.append(at_least(f"least gap outside contact, {direction}, W/d = {ratio}", bearing.worst_gap, 0.0))
            rows.append(at_least(f"least force inside contact, {direction}, W/d = {ratio}", bearing.worst_force, 0.0))
    return rows


def convergence() -> list[Row]:
    """The table's mesh against one with three quarters of its element size."""
    rows = []
    for ratio in (1.25, 2.0, 3.0):
        table, fine = _table_eye(ratio), family.prepare(ratio, FINE)
        for direction in SIGN:
            for load in (0.02, 0.2, 1.0, 5.0, np.inf):
                name = f"{direction}, W/d = {ratio}, load {load:g}"
                coarse_state, fine_state = family.solve(table, direction, load), family.solve(fine, direction, load)
                # 1 % for pull. In push the peak is a cusp where contact ends, cut off by one
                # element; it is also the smaller stress by far, so 3 % is enough.
                allowed = 0.01 if direction == "pull" else 0.03
                rows.append(near(f"mesh: peak, {name}", coarse_state.peak, fine_state.peak, allowed))
                # 1 degree is three bore elements.
                rows.append(near(f"mesh: contact half-angle difference, {name}, degrees", coarse_state.half_angle_deg - fine_state.half_angle_deg, 0.0, 1.0))
                # The largest change of any tabulated angle, as a part of the largest factor.
                scale = np.abs(fine_state.bore_hoop).max()
                change = np.abs(coarse_state.bore_hoop - fine_state.bore_hoop).max() / scale
                rows.append(near(f"mesh: bore hoop at all angles, {name}", float(change), 0.0, 0.01))
    return rows


def trends(table: dict) -> list[Row]:
    """The factor falls and the contact widens as the pin fits closer; pressure falls."""
    rows = []
    # Below this a step is printing round-off of four digits.
    slack = 1e-3
    for d, direction in enumerate(table["direction"]):
        for w, ratio in enumerate(table["width_ratio"]):
            name = f"{direction}, W/d = {ratio}"
            half = np.array(table["contact_half_angle_deg"][d][w])
            pressure = np.array(table["peak_pressure"][d][w])
            rows.append(at_least(f"contact half-angle grows with load, {name}: least step", float(np.diff(half).min()), 0.0))
            rows.append(at_least(f"pressure factor falls with load, {name}: least step", float(-np.diff(pressure).max()), -slack))
            if direction == "pull":
                peak = np.array(table["peak"][d][w])
                rows.append(at_least(f"peak factor falls with load, {name}: least step", float(-np.diff(peak).max()), -slack))
    return rows


def handbook_lug() -> list[Row]:
    """Square-ended strip lug against the close-pin fit printed in Roark's Formulas (memory).

    The fit goes back to photoelastic models whose clearance and friction are not known here. It
    lies above the study's close fit, and this is told as a note. What is judged is the greatest
    factor that any clearance gives.
    """
    rows = []
    for ratio in (0.3, 0.4, 0.5, 0.6):
        fit = 12.882 - 52.714 * ratio + 89.762 * ratio**2 - 51.667 * ratio**3
        lug = _square_lug(1.0 / ratio)
        same = with_elastic_pin(lug, 1.0)
        rows.append(note(f"square-ended lug, d/W = {ratio}, close fit, rigid pin, net Kt", _lug_peak(lug, ratio, np.inf), fit))
        rows.append(note(f"square-ended lug, d/W = {ratio}, close fit, pin of the same modulus, net Kt", _lug_peak(same, ratio, np.inf), fit))
        greatest = max(_lug_peak(lug, ratio, load) for load in (0.05, 0.2, 0.5, 1.0, 2.0, 5.0, 20.0, np.inf))
        # 8 %: read-off of photoelastic fringes and a cubic through them, about 5 %, and friction.
        rows.append(near(f"square-ended lug, d/W = {ratio}, greatest over clearance, net Kt", greatest, fit, 0.08))
    return rows


def _square_lug(width_ratio: float) -> BoreResponse:
    outline = plate(width_ratio, square_lug_end=1.0)
    part = Part(build(outline, WIDE))
    return part.response(part.end_dofs(-outline.left_end), Rays.hoop(np.array([0.0]), 1.0))


def _lug_peak(lug: BoreResponse, hole_over_width: float, load: float) -> float:
    bearing = press(lug, "pull", 1.0 / load)
    return float((lug.bore_hoop @ bearing.force).max() * (2.0 / hole_over_width - 2.0))


def magnitude(table: dict) -> list[Row]:
    """The range that another contact study of one rod gave."""
    rows = []
    middle = table["width_ratio"].index(2.0)
    pull = table["direction"].index("pull")
    peak, half = table["peak"][pull][middle], table["contact_half_angle_deg"][pull][middle]
    loose = table["load"].index(0.02)
    # 10 %: that rod's width ratio and shank are not known here, only its range.
    rows.append(near("W/d = 2, close fit: peak against another study", peak[-1], 3.3, 0.1))
    rows.append(near("W/d = 2, load 0.02: peak against another study", peak[loose], 4.9, 0.1))
    rows.append(near("W/d = 2, close fit: contact half-angle, degrees", half[-1], 96.0, 0.05))
    angles = np.array(half)
    rows.append(at_most("W/d = 2: least contact half-angle, degrees", float(angles.min()), 18.0))
    return rows


def shipped(table: dict) -> list[Row]:
    """The table on disk is what the study computes."""
    rows = []
    fresh = family.prepare(1.8)
    w = table["width_ratio"].index(1.8)
    for d, direction in enumerate(table["direction"]):
        for load in (0.1, np.inf):
            at = len(table["load"]) - 1 if np.isinf(load) else table["load"].index(load)
            state = family.solve(fresh, direction, load)
            stored = np.array(table["bore_hoop"][d][w][at])
            # Half a unit of the fourth digit of the largest value is 5e-4 of it at most.
            rows.append(near(f"table against a fresh solve, {direction}, load {load:g}: bore hoop",
                            float(np.abs(stored - state.bore_hoop).max() / np.abs(stored).max()), 0.0, 5e-4))
            rows.append(near(f"table against a fresh solve, {direction}, load {load:g}: peak",
                            table["peak"][d][w][at], state.peak, 5e-4))
    return rows


def run(table_path: Path) -> Iterator[Row]:
    """All checks, in the order of the README."""
    table = json.loads(table_path.read_text())
    yield from plate_with_hole()
    yield from thick_ring()
    yield from cosine_in_wide_plate()
    yield from hertz()
    yield from equilibrium()
    yield from trends(table)
    yield from magnitude(table)
    yield from shipped(table)
    yield from handbook_lug()
    yield from convergence()
