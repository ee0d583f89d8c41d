"""Answers: reports with their JSON, their words, and numbers as arrays."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from . import _native
from .reports import Record


@dataclass(frozen=True)
class Painted:
    """The surface that was asked about, with a number for every facet."""

    points_mm: np.ndarray
    """x, y and z of every point, mm, coordinates of the mesh: n rows of 3."""
    corners: np.ndarray
    """Numbers of the three points of every facet, counter-clockwise seen from outside: m rows of 3."""
    values: np.ndarray
    """The number of every facet, NaN where there is none: after a check stress over what 90 % of prints bear there for the
    wanted life, 1 being the limit; after walls the least thickness, mm."""


def table(records: Sequence[Any]) -> np.ndarray:
    """Records of one kind as a structured array: a column for every entry that is a number, ``array["position_mm"]``; NaN where
    a record has none."""
    names = list(dict.fromkeys(name for record in records for name in record))
    columns = [name for name in names if all(_is_number(record.get(name)) for record in records)]
    array = np.empty(len(records), dtype=[(name, np.float64) for name in columns])
    for name in columns:
        array[name] = [np.nan if record.get(name) is None else record[name] for record in records]
    return array


def _is_number(value: Any) -> bool:
    return value is None or (isinstance(value, (int, float)) and not isinstance(value, bool))


class _Answer(Record):
    """A report: its entries are attributes, as in the JSON."""

    __slots__ = ("json", "painted", "words")

    json: str
    """The report: the very text that the command line prints as JSON."""
    words: str
    """What it says in plain English, a thought a line, with the cautions."""
    painted: Painted | None
    """Numbers by facet, where they were asked for."""

    def __init__(self, native: _native.Answer) -> None:
        super().__init__(json.loads(native.json))
        painted = native.painted
        for name, value in (("json", native.json), ("words", native.words), ("painted", painted and _arrays(painted))):
            object.__setattr__(self, name, value)

    def __repr__(self) -> str:
        return f"<layload.{type(self).__name__}: {self.words.splitlines()[0]}>"


class Checked(_Answer):
    """Will it last, for how long, what fails first and where."""

    __slots__ = ()

    @property
    def station_table(self) -> np.ndarray:
        """Cuts across the load path as a structured array."""
        return table(self.stations)

    @property
    def cycle_table(self) -> np.ndarray:
        """Forces over one cycle of the engine as a structured array."""
        return table(self.crank.moments if self.crank else [])


class Directed(_Answer):
    """Which way up to print it."""

    __slots__ = ()

    @property
    def direction_table(self) -> np.ndarray:
        """Every direction that was scored, as a structured array; the directions themselves are ``direction_vectors``."""
        return table(self.directions)

    @property
    def direction_vectors(self) -> np.ndarray:
        """Unit vectors in which layers stack, n rows of 3."""
        return np.array([one.build_direction for one in self.directions])


class Swept(_Answer):
    """Life against speed."""

    __slots__ = ()

    @property
    def speed_table(self) -> np.ndarray:
        """One row for each speed, rising."""
        return table(self.sweep)


class Measured(_Answer):
    """Which walls are too thin; ``painted`` has the thickness at every facet."""

    __slots__ = ()


class Compared(_Answer):
    """What changed between two parts."""

    __slots__ = ()


def _arrays(painted: Sequence[bytes]) -> Painted:
    points, corners, values = painted
    return Painted(
        np.frombuffer(points, dtype=np.float64).reshape(-1, 3),
        np.frombuffer(corners, dtype=np.uint32).reshape(-1, 3),
        np.frombuffer(values, dtype=np.float64),
    )
