"""A program with types, for the type checker alone; it is not run."""

import layload


def told(stage: str, share: float) -> bool:
    return share < 0.9


checked = layload.check("rod.stl", layload.Job({"engine": {"stroke_mm": 46.0}}), cells=2000, progress=told)
margin: float = checked.verdict.margin
held: bool | None = checked.verdict.holds
if checked.rod is not None:
    pull: float = checked.rod.forces.small_end_pull_n
for station in checked.stations:
    wall: float | None = station.thinnest_wall_mm
for region in layload.walls(b"", {}).thin_regions:
    facets: list[int] = region.facets
rpm: float = layload.sweep("rod.stl", "job.toml", 1000.0, 2000.0).sweep[0].rpm
