"""A whole rod check done a second way, against the report of the program.

    python check_rod.py MESH TRUTH.json JOB.toml CARD.toml EYE_TABLE.json REPORT.json

Own sections, forces, stresses and lives; common ground is the job, the card, the table of the eye study and where the
bores are by the mesh's maker. Prints every comparison with its bound and its reason; exits with 1 if one is out of bounds.
"""

import json
import sys
import tomllib

import numpy as np
from scipy.interpolate import RegularGridInterpolator

import engine
import geometry
import life

SAMPLES = 720
STATIONS = 120
SLICES = 400


class Rod:
    """Forces in a rod of thin slices, each moved as the rigid body moves it."""

    def __init__(self, mesh, crank, density, reciprocating_mass):
        low, high = mesh.bounds[:, 0]
        edges = np.linspace(low, high, SLICES + 1)
        middles = 0.5 * (edges[1:] + edges[:-1])
        cuts = [geometry.Section(mesh, x) for x in middles]
        self.mass = density * np.diff(edges) * np.array([c.area for c in cuts])
        self.x, self.y = middles, np.array([c.center[0] for c in cuts])
        # Turning each slice about its own middle: its spread along y and its own thickness.
        self.own = density * np.diff(edges) * np.array([c.yy for c in cuts]) + self.mass * np.diff(edges)**2 / 12.0
        self.crank, self.reciprocating = crank, reciprocating_mass
        self.volume = mesh.volume

    def run(self, gas_force, speed):
        """Axial force, shear, moment at any plane and the pin forces, for every crank angle."""
        crank = self.crank
        small, big = crank.rod_point(0.0), crank.rod_point(1.0)
        along = (big - small) / crank.rod
        # The side that a quarter turn from the rod's direction gives.
        across = np.stack([-along[1], along[0]])
        a_small = np.stack([crank.twice(small[0], speed), np.zeros(SAMPLES)])
        a_big = np.stack([crank.twice(big[i], speed) for i in (0, 1)])
        a_along = np.stack([crank.twice(along[i], speed) for i in (0, 1)])
        a_across = np.stack([-a_along[1], a_along[0]])
        # Position of a slice is small + x along + y across, so its acceleration is the same sum.
        parts = lambda x, y: a_small[:, None] + a_along[:, None] * x[:, None] + a_across[:, None] * y[:, None]
        every = parts(self.x, self.y)
        self.push_along = self.mass[:, None] * np.einsum("dst,dt->st", every, along)
        self.push_across = self.mass[:, None] * np.einsum("dst,dt->st", every, across)
        spin = np.sum(a_along * across, axis=0)
        self.turning = self.own[:, None] * spin
        along_total, across_total = self.push_along.sum(axis=0), self.push_across.sum(axis=0)
        about_small = (self.x[:, None] * self.push_across - self.y[:, None] * self.push_along + self.turning).sum(axis=0)
        # Newton and Euler for the rod; the pins give forces only, and the piston what gas and its own mass leave.
        self.big_across = about_small / crank.rod
        self.small_across = across_total - self.big_across
        toward_head = -gas_force - self.reciprocating * a_small[0]
        # toward_head = small_along * along_u + small_across * across_u
        self.small_along = (toward_head - self.small_across * across[0]) / along[0]
        self.big_along = along_total - self.small_along

    def at(self, section):
        """What the far side of a plane between the pins does to the near side."""
        before = self.x < section.x
        axial = self.push_along[before].sum(axis=0) - self.small_along
        arm_x, arm_y = self.x[before, None] - section.x, self.y[before, None] - section.center[0]
        turning = (arm_x * self.push_across[before] - arm_y * self.push_along[before] + self.turning[before]).sum(axis=0)
        bending = turning + section.x * self.small_across - section.center[0] * self.small_along
        shear = self.push_across[before].sum(axis=0) - self.small_across
        return axial, shear, bending


def looser_never_less(peaks):
    """Peaks by rising load coordinate, the loosest pin first: beyond the least of them a looser pin has no lower one."""
    found, least = np.array(peaks), int(np.argmin(peaks))
    found[:least + 1] = np.maximum.accumulate(found[least::-1])[::-1]
    return found


def eye_histories(table, radius, ligament, thickness, seat, modulus, clearance, pull_sign, along, across):
    """Hoop stress at every angle of the study at the bore and outside, for every crank angle."""
    force = np.hypot(along, across)
    nominal = force / (2.0 * ligament * thickness)
    load = 1.0 / (1.0 + np.sqrt(modulus * clearance * seat / force))
    pulls = along * pull_sign > 0.0
    width = np.full_like(force, 1.0 + ligament / radius)
    out = []
    for kind in ("bore_hoop", "outer_hoop"):
        factors = []
        for thrust in (0, 1):
            nodes = np.array(table[kind][thrust])
            if kind == "bore_hoop":
                # The peak may lie between two angles: the curve is raised to reach it.
                tops = nodes.max(axis=2)
                peaks = np.maximum(np.array([looser_never_less(row) for row in table["peak"][thrust]]), tops)
                raise_ = np.maximum(peaks / tops, 1.0)[:, :, None]
                nodes = np.where(nodes > 0.0, nodes * raise_, nodes)
            axes = (np.array(table["width_ratio"]), np.array(table["load_coordinate"]))
            limit = lambda values, axis: np.clip(values, axis[0], axis[-1])
            points = np.stack([limit(width, axes[0]), limit(load, axes[1])], axis=1)
            found = RegularGridInterpolator(axes, nodes)(points)
            if kind == "bore_hoop":
                # Between two nodes of the table as well.
                short = RegularGridInterpolator(axes, peaks)(points) / np.maximum(found.max(axis=1), 1e-9)
                found = np.where(found > 0.0, found * np.maximum(short, 1.0)[:, None], found)
            factors.append(found)
        out.append(nominal[:, None] * np.where(pulls[:, None], factors[0], factors[1]))
    return np.concatenate(out, axis=1)


def main(mesh_path, truth_path, job_path, card_path, table_path, report_path):
    truth = json.load(open(truth_path))["files"][mesh_path]
    job, card = (tomllib.load(open(path, "rb")) for path in (job_path, card_path))
    table, report = json.load(open(table_path)), json.load(open(report_path))
    material = life.Material(card, job["material"]["temperature_c"])
    mesh = geometry.placed(mesh_path, truth)
    length = 1e-3 * truth["center_distance_mm"]
    radii = [0.5e-3 * truth[f"{end}_bore_diameter_mm"] for end in ("small", "big")]
    motor = job["engine"]
    crank = engine.Crank(0.5e-3 * motor["stroke_mm"], length, 1e-3 * motor["bore_mm"], motor["compression_ratio"], SAMPLES)
    rod = Rod(mesh, crank, material.density, 1e-3 * motor["reciprocating_mass_g"])
    heat = engine.meet_peak(crank, 1e5 * motor["gas"]["peak_pressure_bar"])
    stations = [geometry.Section(mesh, x) for x in np.linspace(radii[0], length - radii[1], STATIONS + 2)[1:-1]]
    ends = (-mesh.bounds[0, 0], mesh.bounds[1, 0] - length)
    rings = [geometry.eye(mesh, x, radius, end) for x, radius, end in zip((0.0, length), radii, ends)]
    duty = job["duty"]["steps"]
    histories = {("shank", k): [] for k in range(STATIONS)} | {("small",): [], ("big",): []}
    pull, push, whip = [0.0, 0.0], [0.0, 0.0], 0.0
    middles = [[] for _ in stations]
    extremes = np.zeros((STATIONS, 2))
    for step in duty:
        gas = (engine.pressure(crank, step["throttle"], heat) - 1e5) * crank.piston_area
        rod.run(gas, step["rpm"] * np.pi / 30.0)
        for k, section in enumerate(stations):
            axial, shear, bending = rod.at(section)
            middles[k].append(material.middle_use(axial / section.area, section.shear_factor() * shear / section.area))
            whip = max(whip, np.abs(bending).max())
            stress = section.stress(axial, bending, axial * 0.0)
            histories["shank", k].append(stress)
            extremes[k, 0], extremes[k, 1] = max(extremes[k, 0], stress.max()), min(extremes[k, 1], stress.min())
        for end, (along, across) in enumerate(((rod.small_along, rod.small_across), (rod.big_along, rod.big_across))):
            sign = (-1.0, 1.0)[end]
            pull[end], push[end] = max(pull[end], (sign * along).max()), max(push[end], (-sign * along).max())
            name = ("small", "big")[end]
            # The pin bears on the bore between the chamfers of its mouths.
            seat = 1e-3 * (truth[f"{name}_eye_depth_mm"] - 2.0 * truth.get("mouth_chamfer_mm", 0.0))
            clearance = 1e-3 * job["part"][f"{name}_end"]["radial_clearance_mm"]
            histories[name,].append(eye_histories(
                table, radii[end], *rings[end], seat, material.modulus, clearance, sign, along, across))
    places = {}

    def consider(region, place):
        if region not in places or place.median_life() < places[region].median_life():
            places[region] = place

    for key, steps in histories.items():
        region = key[0]
        candidates = range(steps[0].shape[1])
        if region == "shank":
            # Of a section's corners only those that are ever the most stressed can be the worst.
            candidates = {int(c) for s in steps for c in (s.max(axis=0).argmax(), s.min(axis=0).argmin())}
        for c in candidates:
            consider(region, life.Place(material, duty, [s[:, c] / material.wall for s in steps]))
    for steps in middles:
        consider("shank", life.Place(material, duty, *zip(*steps)))
    lives = life.drawn(list(places.values()), material)
    hoop = [max(s.max() for s in histories[name,]) for name in ("small", "big")]
    known = report["stations"]
    inside = [s for s in known if radii[0] < 1e-3 * s["position_mm"] < length - radii[1]]
    of = lambda key, x: np.interp(1e3 * x, [s["position_mm"] for s in inside], [s[key] for s in inside])
    middle = stations[STATIONS // 2]
    eyes = report["rod"]["eyes"]
    forces = report["rod"]["forces"]
    loads, between = report["loads"], "read between two stations of the report"
    slices, planes = "slices of a quarter of a millimetre", "greatest over other planes"
    fitted = "bore of the maker against bore fitted to its facets"
    rows = [
        ("volume, mm3", 1e9 * mesh.volume, report["mesh"]["volume_mm3"], 1e-6, "the same facets of four-byte numbers"),
        ("area in mid-length, mm2", 1e6 * middle.area, of("area_mm2", middle.x), 1e-3, between),
        ("least second moment there, mm4", 1e12 * least(middle), of("second_moment_min_mm4", middle.x), 3e-3, between + ", third power"),
        ("peak pressure, bar", max_pressure(crank, duty, heat), loads["peak_pressure_bar"], 1e-4, "both meet the stated peak"),
        ("piston acceleration, m/s2", acceleration(crank, duty), loads["piston_acceleration_max_m_s2"], 1e-6, "rounding of a Fourier series"),
        ("pull of the piston pin, N", pull[0], forces["small_end_pull_n"], 1e-3, "solver of the gas cycle"),
        ("push of the piston pin, N", push[0], forces["small_end_push_n"], 1e-3, "solver of the gas cycle"),
        ("pull of the crank pin, N", pull[1], forces["big_end_pull_n"], 1e-3, slices),
        ("push of the crank pin, N", push[1], forces["big_end_push_n"], 1e-3, slices),
        ("whip, N mm", 1e3 * whip, forces["whip_moment_max_n_mm"], 2e-3, planes),
        ("axial force in mid-length, N", axial_most(rod, duty, crank, heat, middle), of("axial_force_max_n", middle.x), 2e-3, between),
        ("greatest stress in the shank, MPa", 1e-6 * extremes[:, 0].max(), max(s["stress_max_mpa"] for s in inside), 5e-3, planes),
        ("least stress in the shank, MPa", 1e-6 * extremes[:, 1].min(), min(s["stress_min_mpa"] for s in inside), 5e-3, planes),
        ("small-end ligament, mm", 1e3 * rings[0][0], eyes[0]["ligament_mm"], 1e-3, fitted),
        ("big-end ligament, mm", 1e3 * rings[1][0], eyes[1]["ligament_mm"], 1e-3, fitted),
        ("hoop stress of the small end, MPa", 1e-6 * hoop[0], eyes[0]["hoop_stress_max_mpa"], 3e-3, "pin force and ligament above"),
        ("hoop stress of the big end, MPa", 1e-6 * hoop[1], eyes[1]["hoop_stress_max_mpa"], 3e-3, "pin force and ligament above"),
    ]
    # Lives follow stress to the power of ten: 0.5 % of stress is 5 % of life.
    for share, key in ((0.5, "b50_s"), (0.1, "b10_s"), (0.01, "b1_s")):
        mine = np.quantile(lives, share) / 3600.0
        rows.append((f"life, {share:.0%} failed, h", mine, report["life"][key] / 3600.0, 5e-2, "0.5 % of stress to the tenth power"))
    bad = 0
    print(f"{mesh_path}, {len(stations)} sections, {len(rod.x)} slices")
    for what, mine, theirs, bound, reason in rows:
        off = theirs / mine - 1.0 if mine else float("inf")
        fits = abs(off) <= bound
        bad += not fits
        print(f"  {what:36} {mine:14.6g} {theirs:14.6g} {off:+9.3%}  bound {bound:.2g}{'' if fits else ', OUT OF BOUNDS'}: {reason}")
    if bad:
        print(f"  {bad} out of bounds")
    worst = min(places, key=lambda region: places[region].median_life())
    place = report["verdict"]["governing_place"]
    same = {"shank": "shank", "small": "small", "big": "big"}[worst] in place
    print(f"  first to fail: {worst} here, {place!r} there")
    return 1 if bad or not same else 0


def least(section):
    half, mean = 0.5 * (section.yy - section.zz), 0.5 * (section.yy + section.zz)
    return mean - np.hypot(half, section.yz)


def max_pressure(crank, duty, heat):
    return max(engine.pressure(crank, step["throttle"], heat).max() for step in duty) / 1e5


def acceleration(crank, duty):
    return max(np.abs(crank.twice(crank.pin(crank.angles), step["rpm"] * np.pi / 30.0)).max() for step in duty)


def axial_most(rod, duty, crank, heat, section):
    most = 0.0
    for step in duty:
        gas = (engine.pressure(crank, step["throttle"], heat) - 1e5) * crank.piston_area
        rod.run(gas, step["rpm"] * np.pi / 30.0)
        most = max(most, rod.at(section)[0].max())
    return most


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
