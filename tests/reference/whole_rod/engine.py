"""Gas pressure and motion of an engine, by numerical integration and by differentiating positions."""

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

# What the program takes for a four-stroke when the job is silent; Heywood's typical values, from memory.
COMPRESSION, EXPANSION = 1.32, 1.28
WIEBE_A, WIEBE_M = 5.0, 2.0
BURN_START, BURN_LENGTH = np.radians(-25.0), np.radians(60.0)
# The charge and its petrol.
GAS_CONSTANT, CHARGE_TEMPERATURE, FRESH, AIR_TO_FUEL = 287.0, 350.0, 0.93, 13.0
HEATING_VALUE, BURNT_IN_FULL, TO_WALLS = 43e6, 0.92, 0.20
CLOSED_MANIFOLD, OPEN_MANIFOLD, BACK = 40e3, 95e3, 108e3
EXHAUST_OPENS, BLOWN_DOWN, INTAKE_OPENS, EXHAUST_CLOSES, INTAKE_CLOSES = np.radians([130, 190, 345, 375, 590])


class Crank:
    def __init__(self, throw, rod, bore, ratio, samples):
        self.throw, self.rod, self.samples = throw, rod, samples
        self.angles = np.arange(samples) * 4.0 * np.pi / samples
        self.piston_area = np.pi / 4.0 * bore**2
        self.clearance = self.piston_area * 2.0 * throw / (ratio - 1.0)
        self.burn = (BURN_START, BURN_LENGTH)
        self.manifold = (CLOSED_MANIFOLD, OPEN_MANIFOLD)

    def pin(self, angle):
        return self.throw * np.cos(angle) + np.sqrt(self.rod**2 - (self.throw * np.sin(angle))**2)

    def volume(self, angle):
        return self.clearance + self.piston_area * (self.throw + self.rod - self.pin(angle))

    def twice(self, positions, speed):
        """Second derivative in time of something that repeats every turn, by its Fourier series."""
        orders = np.fft.fftfreq(self.samples, 1.0 / self.samples) / 2.0
        return np.real(np.fft.ifft(-(orders * speed)**2 * np.fft.fft(positions)))

    def rod_point(self, share):
        """Where a point of the rod's line is, for every angle: along the cylinder and across it."""
        small = np.stack([self.pin(self.angles), np.zeros(self.samples)])
        big = self.throw * np.stack([np.cos(self.angles), np.sin(self.angles)])
        return small + share * (big - small)


def burnt(crank, angle):
    y = np.clip((angle - crank.burn[0]) / crank.burn[1], 0.0, 1.0)
    return (1.0 - np.exp(-WIEBE_A * y**(WIEBE_M + 1.0))) / (1.0 - np.exp(-WIEBE_A))


def closed(crank, heat, manifold, angles):
    """Pressure while the cylinder is closed: dp = -n p dV / V + (n - 1) dQ / V, stepped by a general solver."""
    step = 1e-5

    def rate(angle, p):
        n = COMPRESSION if angle < 0.0 else EXPANSION
        dv = (crank.volume(angle + step) - crank.volume(angle - step)) / (2.0 * step)
        dq = heat * (burnt(crank, angle + step) - burnt(crank, angle - step)) / (2.0 * step)
        return (-n * p * dv + (n - 1.0) * dq) / crank.volume(angle)

    found, pressure = [], manifold
    # A new start at every kink keeps the solver's order.
    kinks = [INTAKE_CLOSES - 4.0 * np.pi, crank.burn[0], 0.0, sum(crank.burn), EXHAUST_OPENS]
    for start, end in zip(kinks, kinks[1:]):
        inside = angles[(angles >= start) & (angles < end)]
        run = solve_ivp(rate, (start, end), [pressure], method="DOP853", rtol=1e-9, atol=1e-3, dense_output=True)
        found.append(run.sol(inside)[0] if len(inside) else np.array([]))
        pressure = run.y[0, -1]
    return np.concatenate(found), pressure


def wave(angle, start, end):
    return 0.5 * (1.0 - np.cos(np.pi * np.clip((angle - start) / (end - start), 0.0, 1.0)))


def pressure(crank, throttle, heat_per_pascal):
    manifold = crank.manifold[0] + throttle * (crank.manifold[1] - crank.manifold[0])
    signed = np.where(crank.angles >= INTAKE_CLOSES, crank.angles - 4.0 * np.pi, crank.angles)
    is_closed = signed < EXHAUST_OPENS
    order = np.argsort(signed[is_closed])
    values, opening = closed(crank, heat_per_pascal * manifold, manifold, np.sort(signed[is_closed]))
    out = np.empty(crank.samples)
    shut = np.empty(is_closed.sum())
    shut[order] = values
    out[is_closed] = shut
    a = crank.angles[~is_closed]
    outside = BACK + wave(a, INTAKE_OPENS, EXHAUST_CLOSES) * (manifold - BACK)
    out[~is_closed] = outside + (1.0 - wave(a, EXHAUST_OPENS, BLOWN_DOWN)) * (opening - outside)
    return out


def heat_of_fuel(crank):
    """Heat per pascal of manifold pressure that the fuel of the charge gives."""
    charge = crank.volume(INTAKE_CLOSES - 4.0 * np.pi) / (GAS_CONSTANT * CHARGE_TEMPERATURE)
    return charge * FRESH / (1.0 + AIR_TO_FUEL) * HEATING_VALUE * BURNT_IN_FULL * (1.0 - TO_WALLS)


def meet_peak(crank, peak):
    """Moves the burn later, then takes off charge, until the stated peak is met; heat per pascal of manifold pressure."""
    heat = heat_of_fuel(crank)
    latest = (max(BURN_START, np.radians(-5.0)), max(BURN_LENGTH, np.radians(90.0)))

    def peak_at(lateness):
        crank.burn = tuple(own + lateness * (late - own) for own, late in zip((BURN_START, BURN_LENGTH), latest))
        return pressure(crank, 1.0, heat).max()

    assert peak < peak_at(0.0), "a burn quicker than the usual one is not worked out here"
    least = peak_at(1.0)
    if peak < least:
        crank.manifold = (min(CLOSED_MANIFOLD, OPEN_MANIFOLD * peak / least), OPEN_MANIFOLD * peak / least)
    else:
        peak_at(brentq(lambda lateness: peak_at(lateness) - peak, 0.0, 1.0, xtol=1e-10))
    return heat
