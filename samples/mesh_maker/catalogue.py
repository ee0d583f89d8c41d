"""One entry for every mesh file: how it is made, what it is, what a reader must do with it."""

from collections.abc import Callable
from dataclasses import dataclass, field

from .part import Part


@dataclass(frozen=True)
class Entry:
    """`closed` is checked when the file is written; `expected` is the outcome a reader must reach."""

    name: str
    make: Callable[[], Part]
    expected: str
    what: str
    reader_must: str
    closed: bool = True
    header: str | None = None
    ascii: bool = False
    notes: dict = field(default_factory=dict)


# Outcomes that `expected` may name.
ROD = "rod"
ROD_AFTER_REPAIR = "rod_after_repair"
NOT_A_ROD = "not_a_rod"
PISTON = "piston"
REFUSED = "refused"
OUTCOMES = {
    ROD: "read as a rod with the truths given",
    ROD_AFTER_REPAIR: "read as a rod after a repair that is reported",
    NOT_A_ROD: "a sound mesh, refused as a rod with what was found",
    PISTON: "read as a piston with the truths given",
    REFUSED: "refused as a mesh, the place named",
}
