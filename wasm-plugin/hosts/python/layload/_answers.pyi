from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from . import _native
from .reports import CompareReport, DirectionsReport, Report, SweepReport, WallsReport

@dataclass(frozen=True)
class Painted:
    points_mm: NDArray[np.float64]
    corners: NDArray[np.uint32]
    values: NDArray[np.float64]

def table(records: Sequence[Any]) -> NDArray[Any]: ...

class Checked(Report):
    json: str
    words: str
    painted: Painted | None
    def __init__(self, native: _native.Answer) -> None: ...
    @property
    def station_table(self) -> NDArray[Any]: ...
    @property
    def cycle_table(self) -> NDArray[Any]: ...

class Directed(DirectionsReport):
    json: str
    words: str
    painted: Painted | None
    def __init__(self, native: _native.Answer) -> None: ...
    @property
    def direction_table(self) -> NDArray[Any]: ...
    @property
    def direction_vectors(self) -> NDArray[np.float64]: ...

class Swept(SweepReport):
    json: str
    words: str
    painted: Painted | None
    def __init__(self, native: _native.Answer) -> None: ...
    @property
    def speed_table(self) -> NDArray[Any]: ...

class Measured(WallsReport):
    json: str
    words: str
    painted: Painted | None
    def __init__(self, native: _native.Answer) -> None: ...

class Compared(CompareReport):
    json: str
    words: str
    painted: Painted | None
    def __init__(self, native: _native.Answer) -> None: ...
