# Made by make_stubs.py from the schemas of the reports; do not edit.
from collections.abc import Iterator, Mapping
from typing import Any, Literal, TypeAlias

class Record(Mapping[str, Any]):
    def __init__(self, entries: Mapping[str, Any]) -> None: ...
    def __getitem__(self, name: str) -> Any: ...
    def __iter__(self) -> Iterator[str]: ...
    def __len__(self) -> int: ...

class AnyLoadReport(Record):
    """A load."""
    at: str | None
    follows_speed: bool
    greatest: float
    least: float
    name: str
    what: str

class AnyReport(Record):
    """What only a part of any kind has: its places, what holds it there and what loads it."""
    history: str
    holds: list[HoldReport]
    loads: list[AnyLoadReport]
    places: list[PlaceReport]
    warm: list[WarmReport]

class AreaStepReport(Record):
    """A place where the area along the load path changes suddenly."""
    area_from_mm2: float
    area_to_mm2: float
    concentration: float
    fillet_radius_mm: float
    from_mm: float
    to_mm: float

class Assumption(Record):
    """One thing the answer rests on."""
    key: str | None
    name: str
    reference: str | None
    source: Origin
    unit: str
    value: Quantity

Bears: TypeAlias = Literal['strength'] | Literal['life']

class BondHeight(Record):
    """The bond at one height."""
    below_c: float
    factor: float
    height_mm: float
    layer_time_s: float

class BondReport(Record):
    """The bond between layers as this print makes it."""
    heights: list[BondHeight]
    least_factor: float
    most_factor: float

class BoreReport(Record):
    """A bore."""
    arc_deg: float
    axis: list[float]
    center_mm: list[float]
    depth_mm: float
    diameter_mm: float
    role: str
    sagitta_mm: float
    seats: list[SeatReport]

class BossReport(Record):
    """A pin boss."""
    bearing_length_mm: float
    from_mm: float
    to_mm: float

class BridgeReport(Record):
    """A thin place of a crown."""
    area_mm2: float
    center_mm: list[float]
    thickness_mm: float

class CapReport(Record):
    """A cap clamped over a split eye."""
    fading: list[PreloadReport]
    joint_pull_n: float
    opens_after_s: float | None
    preload_left_n: float
    preload_n: float
    preload_warm_n: float
    role: str
    squeeze_mpa: float
    stud_stress_mpa: float
    studs: str
    utilisation_assembled: float

ChangeGroup: TypeAlias = Literal['geometry'] | Literal['loads'] | Literal['heat'] | Literal['life'] | Literal['speed']

ChangeMeasure: TypeAlias = Literal['life'] | Literal['margin']

class ChangeReport(Record):
    """One number of both revisions."""
    factor: float | None
    group: ChangeGroup
    name: str
    new: float | None
    old: float | None
    unit: str

ChangedInput: TypeAlias = Literal['thickness'] | Literal['small-end-wall'] | Literal['big-end-wall'] | Literal['speed'] | Literal['throttle'] | Literal['reciprocating-mass'] | Literal['peak-pressure'] | Literal['compression-ratio'] | Literal['run-length'] | Literal['temperature'] | Literal['pin-clearance'] | Literal['cylinder-clearance'] | Literal['build-direction'] | Literal['infill'] | Literal['moisture'] | Literal['nozzle'] | Literal['chamber'] | Literal['parts-together'] | Literal['preload'] | Literal['crown-thickness'] | Literal['softening'] | Literal['crown-plate'] | Literal['crown-coating'] | Literal['crown-cover'] | Literal['underside'] | Literal['boss-wall'] | Literal['land-height'] | Literal['wall-area'] | Literal['skirt-length'] | Literal['load']

class ChangedValue(Record):
    """A value that a change moves."""
    from_: float
    name: str
    to: float
    unit: str

class ChangesTogether(Record):
    """The best change of a size and the best of anything else but how the engine is run, made together."""
    both: FurtherChange
    other: ChangedInput
    size: ChangedInput

class ClearanceReport(Record):
    """How much longer the rod is between its bore centres, at its greatest pull and after the wanted life, than
    when fitted."""
    creep_mm: float
    elastic_mm: float
    given_mm: float | None
    remaining_mm: float | None
    thermal_mm: float

class CompareReport(Record):
    """Two revisions of a part side by side."""
    cautions: list[str]
    changes: list[ChangeReport]
    findings: list[str]
    inputs: list[InputChangeReport]
    kind: PartKind
    new: RevisionReport
    old: RevisionReport
    path: list[PathChangeReport]
    program_version: str
    schema_version: str

Coverage: TypeAlias = Literal['checked'] | Literal['bounded'] | Literal['not-checked']

class CoveredReport(Record):
    """An effect that may change the answer, and whether it is in it."""
    effect: str
    factor: float
    state: Coverage
    told: str

class CrankMomentReport(Record):
    """Forces at one crank angle."""
    axial_force_n: float
    bending_moment_n_mm: float | None
    crank_deg: float
    crank_pin_n: float | None
    piston_acceleration_m_s2: float
    piston_pin_n: float
    pressure_bar: float
    side_thrust_n: float | None

class CrankReport(Record):
    """Forces over one engine cycle in the fastest step of the duty."""
    axial_position_mm: float
    bending_position_mm: float | None
    moments: list[CrankMomentReport]
    rpm: float
    throttle: float

class CrownHeatReport(Record):
    """The crown in one run from cold."""
    counting_depth_c: float
    counting_depth_mm: float
    crown_soft_hohenberg_s: float | None
    crown_soft_s: float | None
    crown_soft_woschni_s: float | None
    film_temperature_c: float
    film_w_m2_k: float
    imbalance: float
    land_soft_s: float | None
    plastic_face_c: float
    run_s: float
    softening_c: float
    softening_time_s: float | None
    surface_c: float
    table: list[CrownMomentReport]
    top_land_c: float

class CrownMomentReport(Record):
    """The crown at one time of a run."""
    plastic_face_c: float
    seconds: float
    soft_depth_mm: float
    surface_c: float
    underside_c: float

class CrownReport(Record):
    """A crown as a plate."""
    bridges: list[BridgeReport] | None
    deflection_mm: list[float]
    edge_share: float
    equal_thickness_mm: float
    free_diameter_mm: float
    governing_edge: str
    holes: list[HoleReport] | None
    margin: float
    margin_clamped: float
    margin_supported: float
    mean_mm: float
    relief_mm: float
    sphere_mm: float
    thick_mm: float
    thickness_mm: float
    thin_mm: float

class DirectionReport(Record):
    """What one build direction makes of the part."""
    angle_to_axis_deg: float
    bore_angles_deg: list[float]
    build_direction: list[float]
    checked: bool
    contact_area_mm2: float
    governing_mode: Mode
    governing_place: str
    height_mm: float
    life_s: float
    margin: float
    not_recommended: str | None
    pareto: bool
    print_time_s: float
    solved: bool
    stair_step_mm: float
    stands: bool
    state: State
    support_area_mm2: float
    support_volume_mm3: float
    tip_ratio: float | None

class DirectionsReport(Record):
    """Which way up to print."""
    assumptions: list[Assumption]
    cautions: list[str]
    directions: list[DirectionReport]
    named: NamedDirections
    notes: list[str]
    program_version: str
    recommended: Recommended
    schema_version: str
    title: str | None

class EyeReport(Record):
    """An eye."""
    hoop_stress_angle_deg: float
    hoop_stress_max_mpa: float
    journal: JournalReport | None
    ligament_mm: float
    peak_factor_pull: float
    pin_pressure_mpa: float
    radial_clearance_mm: float
    role: str
    thickness_mm: float
    width_ratio: float

class FieldReport(Record):
    """The stress field of a part over the duty."""
    cell_mm: float
    cells: int
    governing: GoverningStress
    hot_spots: list[HotSpotReport]
    nominal: str
    raised: list[float]
    regions: list[str]
    solves: list[SolveReport]

class FitReport(Record):
    """A ring pressed into an eye."""
    grip_lasts_s: float | None
    hoop_assembled_mpa: float
    hoop_running_mpa: float
    interference_least_mm: float
    interference_most_mm: float
    loose_at_c: float | None
    pressure_left_mpa: float
    pressure_needed_mpa: float
    rating: RatingReport | None
    ring: str
    role: str
    utilisation_assembled: float

class FurtherChange(Record):
    """A size made larger until the wanted life is reached, in steps of a tenth of a millimetre; where a fifth more
    of it does not, the size of the greatest margin up to there."""
    life_factor: float | None
    margin_factor: float
    mass_change_g: float | None
    moves: list[ChangedValue]

GoverningStress: TypeAlias = Literal['field'] | Literal['sections']

class GrooveReport(Record):
    """A ring groove."""
    below_crown_mm: float
    closing_mm: float
    depth_mm: float
    floor_growth_mm: float
    width_growth_mm: float
    width_mm: float

class GrowthReport(Record):
    """Growth of a diameter in the cylinder."""
    bore_growth_mm: float
    cold_clearance_mm: float
    growth_mm: float
    place: str
    running_clearance_mm: float
    temperature_c: float
    wanted_clearance_mm: float

class HeatReport(Record):
    """Heat of the part at the duty."""
    from_: TemperatureFrom
    hottest: HottestReport
    taken_c: float

class HoldReport(Record):
    """A hold."""
    at: str | None
    clearance_mm: float | None
    greatest_n: float | None
    held_as: HoldWord

HoldWord: TypeAlias = Literal['pin'] | Literal['glued'] | Literal['flat'] | Literal['free']

class HoleReport(Record):
    """A hole through a crown."""
    area_mm2: float
    center_mm: list[float]

class HotSpotReport(Record):
    """A place where the field finds the most harm."""
    across_layers_mpa: float
    along_layers_mpa: float
    crank_deg: float
    depth_mm: float | None
    finer_cells: bool
    handbook_kt: float
    kt: float | None
    life_s: float | None
    margin: float
    mode: Mode
    place: str
    position_mm: list[float]
    rpm: float
    sections_margin: float | None
    sections_mode: Mode | None
    sharp_corner: bool
    stress_mpa: float
    why: str | None

class HottestReport(Record):
    """The hottest place of a part at its duty."""
    place: str
    runs_away: bool
    softening_c: float
    temperature_c: float | None

class InfluenceReport(Record):
    """What one material value does to the margin."""
    bears: Bears
    margin_factor: float
    name: str
    source: Origin

class InputChangeReport(Record):
    """A value of the job that differs."""
    name: str
    new: Quantity | None
    old: Quantity | None
    unit: str

class JournalReport(Record):
    """A plastic bore that slides on its pin."""
    friction: float
    heat_w: float
    limit_mpa_m_s: float
    pressure_speed_mpa_m_s: float
    rise_k: float
    worn_mm: float
    worn_out_mm: float

class LandReport(Record):
    """A land between two grooves."""
    depth_mm: float
    height_mm: float
    number: int
    root_stress_mpa: float
    temperature_c: float

class LeftOutReport(Record):
    """A body that was left out."""
    center_mm: list[float]
    volume_mm3: float

LengthUnit: TypeAlias = Literal['millimetre'] | Literal['centimetre'] | Literal['inch'] | Literal['metre']

class LifeReport(Record):
    """Life by share of parts failed, at the duty."""
    b10_high_s: float
    b10_low_s: float
    b10_s: float
    b1_s: float
    b50_s: float
    draws: int
    one_print_high_s: float
    one_print_low_s: float
    seed: int

class LoadReport(Record):
    """What the engine does to the part over the whole duty."""
    displacement_cm3: float
    mean_piston_speed_m_s: float
    peak_pressure_bar: float
    piston_acceleration_max_m_s2: float

class MeshReport(Record):
    """The mesh as read."""
    closed: bool
    facet_count: int
    mass_g: float
    notes: list[str]
    size_mm: list[float]
    unit: LengthUnit
    volume_mm3: float

Mode: TypeAlias = Literal['softening'] | Literal['self-heating'] | Literal['fatigue-across-layers'] | Literal['fatigue-in-layer-plane'] | Literal['creep-rupture-across-layers'] | Literal['creep-rupture-in-layer-plane'] | Literal['overload-across-layers'] | Literal['overload-in-layer-plane'] | Literal['crushing'] | Literal['buckling'] | Literal['bearing-pressure'] | Literal['split-by-ring'] | Literal['loose-ring'] | Literal['open-joint'] | Literal['skirt-pressure'] | Literal['seizure'] | Literal['head-contact'] | Literal['journal-heat'] | Literal['journal-wear']

class ModeReport(Record):
    """One failure mode."""
    center_mm: list[float] | None
    life_b10_s: float | None
    margin: float
    mode: Mode
    place: str

class NamedDirections(Record):
    """The three ways a rod can lie, each by a full check."""
    flat: DirectionReport
    on_edge: DirectionReport
    upright: DirectionReport

Origin: TypeAlias = Literal['given'] | Literal['mesh'] | Literal['coupon'] | Literal['published'] | Literal['pooled'] | Literal['common-practice'] | Literal['memory']

PartKind: TypeAlias = Literal['connecting-rod'] | Literal['piston'] | Literal['any'] | Literal['other']

class PartReport(Record):
    """The part as recognised."""
    bores: list[BoreReport]
    center_distance_mm: float | None
    kind: PartKind
    left_out: list[LeftOutReport]
    path: PathReport | None

class PathChangeReport(Record):
    """Both parts at one share of the load path."""
    new_area_mm2: float
    new_utilisation: float
    new_wall_mm: float | None
    old_area_mm2: float
    old_utilisation: float
    old_wall_mm: float | None
    share: float

class PathReport(Record):
    """What positions along a part are counted from."""
    along: list[float]
    from_: str
    origin_mm: list[float]

class PistonMassReport(Record):
    """Masses of a piston."""
    job_g: float
    plastic_g: float
    whole_g: float

class PistonReport(Record):
    """What only a piston has."""
    boss_edge_mm: float | None
    boss_gap_mm: float | None
    boss_wall_mm: float | None
    bosses: list[BossReport]
    compression_height_mm: float
    crown: CrownReport
    crown_direction: list[float]
    crown_heat: CrownHeatReport
    grooves: list[GrooveReport]
    growth: list[GrowthReport]
    land_diameter_mm: float
    lands: list[LandReport]
    length_mm: float
    masses: PistonMassReport
    pin_offset_mm: float
    pin_pressure_mpa: float
    pin_pull_n: float
    pin_push_n: float
    side_thrust_n: float
    skirt_diameter_mm: float
    skirt_length_mm: float
    skirt_pressure_mpa: float
    skirt_sagitta_mm: float

class PlaceReport(Record):
    """A place as it was found."""
    area_mm2: float
    bores: int
    center_mm: list[float]
    diameter_mm: float | None
    direction: list[float]
    facets: int
    name: str
    shape: PlaceShapeWord

PlaceShapeWord: TypeAlias = Literal['bore'] | Literal['face']

class PreloadReport(Record):
    """Preload of a cap after some time at running temperature."""
    hours: float
    lost: float
    preload_n: float

class PrintReport(Record):
    """How the part is printed."""
    angle_to_axis_deg: float
    angle_to_bores_deg: float
    axial_strength_share: float
    bond: BondReport | None
    build_direction: list[float]

Quantity: TypeAlias = float | str

class RatingReport(Record):
    """Basic rating life of a rolling bearing by ISO 281; a housing as soft as plastic shortens it."""
    dynamic_rating_n: float
    equivalent_load_n: float
    life_s: float
    life_turns: float
    rolling: RollingElement
    swings: bool

class Recommended(Record):
    """The direction to choose."""
    angle_to_axis_deg: float
    bore_angles_deg: list[float]
    build_direction: list[float]
    checked: bool
    contact_area_mm2: float
    governing_mode: Mode
    governing_place: str
    height_mm: float
    life_s: float
    margin: float
    not_recommended: str | None
    pareto: bool
    print_time_s: float
    reason: str
    solved: bool
    stair_step_mm: float
    stands: bool
    state: State
    support_area_mm2: float
    support_volume_mm3: float
    tip_ratio: float | None

class Report(Record):
    """The whole answer to one check."""
    any: AnyReport | None
    assumptions: list[Assumption]
    cautions: list[str]
    clearance: ClearanceReport | None
    crank: CrankReport | None
    effects: list[CoveredReport] | None
    facet_utilisation: list[float] | None
    field: FieldReport | None
    heat: HeatReport
    life: LifeReport
    loads: LoadReport
    mesh: MeshReport
    modes: list[ModeReport]
    notes: list[str]
    part: PartReport
    piston: PistonReport | None
    print: PrintReport
    program_version: str
    rod: RodReport | None
    schema_version: str
    sensitivities: list[SensitivityReport]
    stations: list[StationReport]
    title: str | None
    together: ChangesTogether | None
    uncertainty: UncertaintyReport
    verdict: VerdictReport
    warnings: list[WarningReport] | None

class RevisionReport(Record):
    """The answer for one revision; `check` tells it in full."""
    governing_mode: Mode
    governing_place: str
    holds: bool | None
    max_rpm_meaning: SpeedVerdict
    state: State
    title: str | None
    unchecked: list[str]
    well_founded: bool

class RodForcesReport(Record):
    """Greatest forces on a rod over the duty."""
    big_end_pull_n: float
    big_end_push_n: float
    small_end_pull_n: float
    small_end_push_n: float
    whip_moment_max_n_mm: float

class RodReport(Record):
    """What only a connecting rod has."""
    caps: list[CapReport] | None
    eyes: list[EyeReport]
    fits: list[FitReport]
    forces: RodForcesReport
    highest_c: float | None
    parallelism_deg: float
    runaway_rpm: float | None
    thin_sections: list[ThinSectionReport]

RollingElement: TypeAlias = Literal['ball'] | Literal['roller']

class SeatReport(Record):
    """One cylindrical surface of a bore."""
    depth_mm: float
    diameter_mm: float

class SensitivityReport(Record):
    """What a change of the input does."""
    change: str
    further: FurtherChange | None
    input: str
    key: ChangedInput
    life_factor: float | None
    margin_factor: float
    measured_by: ChangeMeasure | None
    moves: list[ChangedValue] | None
    softening: SofteningChange | None

class SofteningChange(Record):
    """Time of one run until so much of a piston is soft that it counts as lost."""
    from_s: float
    to_s: float | None

class SolveReport(Record):
    """How one unit case was solved."""
    iterations: int
    name: str
    residual: float
    seconds: float | None

SpeedVerdict: TypeAlias = Literal['limit'] | Literal['range'] | Literal['at-least'] | Literal['none']

State: TypeAlias = Literal['holds'] | Literal['holds-unproven'] | Literal['holds-unchecked'] | Literal['no-fault-found'] | Literal['fails']

class StationReport(Record):
    """A cut along the load path."""
    area_mm2: float
    axial_force_max_n: float
    axial_force_min_n: float
    bending_moment_max_n_mm: float
    position_mm: float
    second_moment_max_mm4: float
    second_moment_min_mm4: float
    shear_force_max_n: float
    solid_area_mm2: float
    stress_max_mpa: float
    stress_min_mpa: float
    temperature_c: float
    thinnest_wall_mm: float | None
    utilisation: float

class SweepPoint(Record):
    """What one speed does."""
    governing_mode: Mode
    governing_place: str
    life_b10_s: float
    life_b50_s: float
    margin: float
    peak_temperature_c: float | None
    rpm: float

class SweepReport(Record):
    """Life against speed."""
    cautions: list[str]
    duty_rpm: float
    program_version: str
    schema_version: str
    solved: bool
    sweep: list[SweepPoint]
    title: str | None
    wanted_life_s: float
    warnings: list[WarningReport] | None

TemperatureFrom: TypeAlias = Literal['given'] | Literal['settled'] | Literal['after-run']

ThinCause: TypeAlias = Literal['few-beads'] | Literal['below-given'] | Literal['stress'] | Literal['no-core']

class ThinRegionReport(Record):
    """A wall that is too thin."""
    area_mm2: float
    cause: ThinCause
    center_mm: list[float]
    edge_depth_mm: float | None
    edge_length_mm: float | None
    facets: list[int]
    least_thickness_mm: float
    limit_mm: float
    place: str
    reason: str

class ThinSectionReport(Record):
    """A stretch of the rod with a thin wall."""
    center_mm: list[float]
    from_mm: float
    least_thickness_mm: float
    limit_mm: float
    place: str
    reason: str
    to_mm: float

class UncertaintyReport(Record):
    """How far off the verdict may be."""
    influences: list[InfluenceReport]
    margin_factor: float
    measure_first: str | None
    memory_share: float

class VerdictReport(Record):
    """The answer."""
    duty_rpm: float
    governing_margin: float | None
    governing_mode: Mode
    governing_place: str
    holds: bool | None
    life_beyond_tests: bool
    life_revolutions: float
    life_s: float
    margin: float
    max_rpm: float | None
    max_rpm_meaning: SpeedVerdict
    min_rpm: float | None
    state: State
    tested_s: float | None
    unchecked: list[str]
    wanted_life_s: float
    well_founded: bool

class WallsReport(Record):
    """Where the material is too thin."""
    area_steps: list[AreaStepReport]
    cautions: list[str]
    facet_count: int
    facets_as_in_file: bool
    least_thickness_mm: float | None
    notes: list[str]
    program_version: str
    schema_version: str
    stress_looked_at: bool
    thickness_mm: list[float | None] | None
    thickness_mm_by_area: list[float]
    thin_regions: list[ThinRegionReport]
    title: str | None

class WarmReport(Record):
    """A warm place."""
    at: str
    reach_mm: float
    temperature_c: float

class WarningReport(Record):
    """An input that is possible but far from what is usual."""
    key: str
    message: str
