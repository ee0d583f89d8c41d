"""From stress histories to lives: counting by the package rainflow, Walker, Basquin, Miner, Zhurkov, drawn prints."""

import numpy as np
import rainflow

GAS_CONSTANT = 8.314462618
TENTH = 1.2815515655446004


class Material:
    """One card at one temperature, within the layer plane along the beads, conditioned."""

    def __init__(self, card, celsius):
        value = lambda table, key: card[table][key]["value"]
        points = card["temperature"]["retention"]["points"]
        column = lambda key: [p[key] for p in points]
        power = lambda key: card["temperature"]["retention"].get(key, {"value": 1.0})["value"]
        kept = np.interp(celsius, column("temperature_c"), column("strength")) ** power("strength_power")
        stiff = np.interp(celsius, column("temperature_c"), column("stiffness")) ** power("stiffness_power")
        warm = 1e6 * kept * value("moisture", "conditioned_strength")
        # Under a wall's surface beads run with the load; deeper, lines change direction from layer to layer.
        self.wall = warm * value("strength", "bead_mpa")
        self.lines = 0.5 * (self.wall + warm * value("strength", "across_mpa"))
        self.crushing = warm * value("strength", "compression_mpa")
        modulus = 0.5 * (value("stiffness", "bead_mpa") + value("stiffness", "across_mpa"))
        self.modulus = 1e6 * modulus * stiff * value("moisture", "conditioned_stiffness")
        self.density = card["density_kg_m3"]["value"]
        self.ratio = value("fatigue", "ratio_1e6")
        self.exponent = value("fatigue", "exponent")
        self.walker = value("fatigue", "walker_exponent")
        self.life_scatter = value("fatigue", "scatter_log10")
        self.strength_scatter = value("strength", "scatter_log10")
        thermal = GAS_CONSTANT * (celsius + 273.15)
        creep = card["creep"]
        # Zhurkov through the short-term strength: the stress that breaks in the time of the short test.
        self.rest = -np.log(creep["attempt_time_s"]["value"]) - 1e3 * creep["activation_energy_kj_mol"]["value"] / thermal
        self.pull = -np.log(creep["short_test_s"]["value"]) - self.rest

    def cycle_harm(self, low, high):
        amplitude = 0.5 * (high - low)
        if high <= 0.0 or amplitude <= 0.0:
            return 0.0
        reversed_ = high**(1.0 - self.walker) * amplitude**self.walker
        return 1e-6 * (reversed_ / self.ratio)**self.exponent

    def middle_use(self, normal, shear):
        """Use of strength by a pull or push with shear in the layer plane: (signed as it repeats, as it lasts)."""
        reach = np.hypot(0.5 * normal, shear)
        most, least = 0.5 * normal + reach, 0.5 * normal - reach
        use = np.where(most >= -least, most / self.lines, -least / self.crushing)
        sheared = np.abs(shear) > np.abs(normal)
        signed = np.where(sheared, np.sign(shear), np.sign(normal)) * use
        return signed, np.where(sheared, use, signed)


class Place:
    """A point with the history of its stress over strength in every step of the duty."""

    def __init__(self, material, duty, histories, lasting=None):
        self.material = material
        total = sum(step["seconds"] for step in duty)
        harm, highest, lowest = 0.0, 0.0, 0.0
        self.levels = []
        for step, history, lasts in zip(duty, histories, lasting or histories):
            start = int(np.argmax(history))
            closed = np.append(np.roll(history, -start), history[start])
            in_one = sum(count * material.cycle_harm(mean - 0.5 * span, mean + 0.5 * span)
                         for span, mean, count, _, _ in rainflow.extract_cycles(closed))
            harm += in_one * step["rpm"] / 120.0 * step["seconds"]
            highest, lowest = max(highest, history.max()), min(lowest, history.min())
            self.levels.append((step["seconds"] / total, np.maximum(lasts, 0.0)))
        # Start and stop of the engine are one cycle of the whole duty.
        self.fatigue = (harm + material.cycle_harm(lowest, highest)) / total
        self.highest = highest

    def rupture(self, weaker=1.0):
        """Damage a second by a load that lasts, in prints `weaker` times as weak."""
        m, weaker = self.material, np.atleast_1d(weaker)
        rates = [share * np.exp(m.rest + m.pull * np.outer(weaker, level)).mean(axis=1) for share, level in self.levels]
        return sum(rates)

    def median_life(self):
        return 1.0 / (self.fatigue + self.rupture()[0])


def drawn(places, material, count=200_000, seed=20251125):
    """Lives of prints drawn by chance: one strength a print, one life a place, the first place to fail."""
    random = np.random.default_rng(seed)
    weaker = 10.0**(-material.strength_scatter * random.standard_normal(count))
    grid = np.linspace(weaker.min(), weaker.max(), 400)
    lives = np.full(count, np.inf)
    for place in places:
        rupture = np.exp(np.interp(weaker, grid, np.log(place.rupture(grid))))
        rate = place.fatigue * weaker**material.exponent + rupture
        life = 10.0**(material.life_scatter * random.standard_normal(count)) / rate
        life[weaker * place.highest >= 1.0] = 0.0
        lives = np.minimum(lives, life)
    return lives
