"""A card as text: tables in the order of the card's type, one value a line."""

HEAD = """\
# Written by tests/reference/posterior/run cards; do not edit. Values with `behind` are the centre and spread of a new printer.
# `rows` and `sheets` name tests and data sheets of this family in core/src/material/evidence; `like` counts those of all others.
"""
ORDER = {
    "stiffness": ["bead_mpa", "across_mpa", "layer_mpa", "layer_shear_mpa", "poisson_ratio"],
    "strength": ["bead_mpa", "across_mpa", "layer_mpa", "layer_shear_mpa", "compression_mpa", "bearing_pressure_mpa", "scatter_log10"],
    "fatigue": ["ratio_1e6", "exponent", "layer_ratio_1e6", "layer_exponent", "walker_exponent", "scatter_log10"],
    "temperature": ["glass_transition_c", "softening_c"],
    "retention": ["strength_power", "stiffness_power", "source", "reference", "spread", "note", "points"],
    "moisture": ["conditioned_strength", "conditioned_stiffness"],
    "thermal": ["conductivity_bead_w_m_k", "conductivity_layer_w_m_k", "specific_heat_j_kg_k", "expansion_bead_per_k",
                "expansion_across_per_k", "expansion_layer_per_k"],
    "loss_factor": ["source", "reference", "spread", "note", "points"],
    "creep": ["attempt_time_s", "activation_energy_kj_mol", "short_test_s", "strain_scale", "stress_scale_mpa", "time_exponent",
              "shift_energy_kj_mol"],
    "weld": ["reference_c", "reference_s", "activation_kj_mol", "stop_c", "floor", "usual"],
}


def text(value):
    """A value of TOML on one line."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {text(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(text(v) for v in value) + "]"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return repr(value)


def lines(table, content):
    """Each key of a table; points one a line. A key this order does not know is a fault, not left out."""
    known = ORDER[table]
    assert set(content) <= set(known), (table, set(content) - set(known))
    found = []
    for key in [k for k in known if k in content]:
        if key == "points":
            found += ["points = [", *[f"    {text(point)}," for point in content[key]], "]"]
        else:
            found.append(f"{key} = {text(content[key])}")
    return found


def section(title, table, content):
    return [f"[{title}]", *lines(table, content), ""]


def card(recalled, entries, correlation):
    """Recalled values with the entries in their places."""
    def of(table, content):
        return {**content, **{key: entry for (where, key), entry in entries.items() if where == table}}

    temperature, thermal = dict(recalled["temperature"]), dict(recalled["thermal"])
    retention, loss = temperature.pop("retention"), thermal.pop("loss_factor")
    fatigue = dict(recalled["fatigue"])
    tests = fatigue.pop("tests", [])
    found = [f"{key} = {text(recalled[key])}" for key in ("name", "family", "density_kg_m3")] + [""]
    found += section("stiffness", "stiffness", of("stiffness", recalled["stiffness"]))
    found += section("strength", "strength", of("strength", recalled["strength"]))
    found += section("fatigue", "fatigue", of("fatigue", fatigue))
    for test in tests:
        found += ["[[fatigue.tests]]", *[f"{key} = {text(value)}" for key, value in test.items()], ""]
    found += section("temperature", "temperature", temperature)
    found += section("temperature.retention", "retention", of("retention", retention))
    found += section("moisture", "moisture", of("moisture", {}))
    found += section("thermal", "thermal", thermal) + section("thermal.loss_factor", "loss_factor", loss)
    found += section("creep", "creep", of("creep", recalled["creep"])) + section("weld", "weld", recalled["weld"])
    found += ["[correlation]", f"of = {text(correlation['of'])}", "rows = [", *[f"    {text(row)}," for row in correlation["rows"]], "]"]
    return HEAD + "\n".join(found) + "\n"
