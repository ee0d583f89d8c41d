"""Checks printed connecting rods and pistons of small engines from their mesh, before they are printed.

Every answer is an estimate, never an approval: show its ``words`` and its ``cautions`` to whoever will run the part.
"""

from ._answers import Checked, Compared, Directed, Measured, Painted, Swept, table
from ._job import Job
from ._native import VERSION as __version__
from ._part import Part, load
from ._questions import check, compare, directions, sweep, walls
from ._refused import Refused

__all__ = [
    "Checked",
    "Compared",
    "Directed",
    "Job",
    "Measured",
    "Painted",
    "Part",
    "Refused",
    "Swept",
    "__version__",
    "check",
    "compare",
    "directions",
    "load",
    "sweep",
    "table",
    "walls",
]
