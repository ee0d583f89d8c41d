"""Rigid round pin in one-sided, frictionless contact with a bore (radius 1, modulus 1)."""

from dataclasses import dataclass, replace

import numpy as np

from elastic import BoreResponse

# Direction of the pin's push: away from the shank (+x) or towards it (-x).
SIGN = {"pull": 1.0, "push": -1.0}


class NotConverged(Exception):
    """The active set did not settle."""


@dataclass(frozen=True)
class Bearing:
    """Nodal forces of one loaded state, resultant 1."""

    force: np.ndarray
    pin_movement: float
    # Angle from the push direction to where pressure ends, radians.
    half_angle: float
    # Greatest contact pressure for a resultant of 1.
    peak_pressure: float
    # Least gap outside the contact and least force inside it; both must not be negative.
    worst_gap: float
    worst_force: float


def press(response: BoreResponse, direction: str, clearance_over_load: float) -> Bearing:
    """Push with resultant 1; `clearance_over_load` is E c / P' (0 for a close fit).

    Primal-dual active set: contact where force - gap > 0, equal to a semi-smooth Newton method
    on the complementarity of gap and force.
    """
    toward = SIGN[direction] * np.cos(response.node_angle)
    movement = response.movement
    scale = 1.0 / np.diag(movement).mean()
    active = toward > 0.0
    for _ in range(200):
        inside = np.nonzero(active)[0]
        size = inside.size
        system = np.zeros((size + 1, size + 1))
        system[:size, :size] = movement[np.ix_(inside, inside)]
        system[:size, size] = -toward[inside]
        system[size, :size] = toward[inside]
        right = np.full(size + 1, -clearance_over_load)
        right[size] = 0.5
        solved = np.linalg.solve(system, right)
        force = np.zeros(toward.size)
        force[inside] = solved[:size]
        pin = float(solved[size])
        gap = clearance_over_load - pin * toward + movement @ force
        gap[inside] = 0.0
        wanted = force - scale * gap > 0.0
        if np.array_equal(wanted, active):
            return _measure(response, direction, force, pin, gap, active)
        active = wanted
    raise NotConverged(f"contact for {direction}, E c / P' = {clearance_over_load}, did not settle")


def _measure(response, direction, force, pin, gap, active) -> Bearing:
    pressure = force / response.node_arc
    away = response.node_angle if direction == "pull" else np.pi - response.node_angle
    order = np.argsort(away)
    away, pressure = away[order], pressure[order]
    last = np.nonzero(pressure > 0.0)[0][-1]
    # Near its end contact pressure goes as the root of the distance, so its square is straight.
    few = slice(max(last - 6, 0), last)
    line = np.polyfit(away[few], pressure[few] ** 2, 1)
    ends = -line[1] / line[0] if line[0] < 0.0 else away[last]
    step = away[1]
    ends = float(np.clip(ends, away[last], away[min(last + 1, away.size - 1)])) if step else 0.0
    return Bearing(force, pin, ends, float(pressure.max()),
                   float(gap[~active].min(initial=np.inf)), float(force[active].min()))


def with_elastic_pin(response: BoreResponse, modulus_ratio: float, poisson: float = 0.3) -> BoreResponse:
    """The same bore met by a solid pin whose modulus is this many times the eye's.

    Closed form for a disc under radial pressure p_n cos(n angle), from Michell's stress function;
    the harmonic n = 1 is the pin's resultant, taken here as a rigid movement. The pin's inward
    movement opens the gap just as the bore's outward movement does.
    """
    angle = response.node_angle
    kolosov = (3.0 - poisson) / (1.0 + poisson)
    shear = modulus_ratio / (2.0 * (1.0 + poisson))
    added = np.zeros_like(response.movement)
    for n in [0, *range(2, angle.size // 2)]:
        # Pressure harmonic of a pair of unit forces at plus and minus the node's angle.
        harmonic = np.cos(n * angle) * (1.0 if n == 0 else 2.0) / np.pi
        if n == 0:
            soft = (1.0 - poisson) / modulus_ratio
        else:
            soft = (n * (n + 1) / (n - 1) + kolosov - 1 - n) / (4.0 * shear * (n + 1))
        added += soft * np.outer(np.cos(n * angle), harmonic)
    return replace(response, movement=response.movement + added)


def cosine_push(response: BoreResponse, direction: str) -> np.ndarray:
    """Nodal forces of the pressure p0 cos(angle) over +-90 degrees, resultant 1."""
    # p0 = 2 / pi gives a resultant of 1 on a bore of radius 1.
    amplitude = 2.0 / np.pi
    return distributed(response, lambda a: amplitude * np.maximum(SIGN[direction] * np.cos(a), 0.0))


def distributed(response: BoreResponse, pressure) -> np.ndarray:
    """Nodal forces that match a given bore pressure, by three-point Gauss quadrature."""
    angle = response.node_angle
    force = np.zeros(angle.size)
    start = np.arange(0, angle.size - 2, 2)
    step = angle[2] - angle[0]
    for point, weight in zip(0.5 + np.array([-0.5, 0.0, 0.5]) * np.sqrt(0.6), [5 / 18, 8 / 18, 5 / 18]):
        value = pressure(angle[start] + point * step) * weight * step
        force[start] += value * (1 - point) * (1 - 2 * point)
        force[start + 1] += value * 4 * point * (1 - point)
        force[start + 2] += value * point * (2 * point - 1)
    return force
