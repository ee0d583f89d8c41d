"""The part: a mesh that was read once."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Optional, Union

import numpy as np

from . import _native
from ._job import Job, JobLike, of

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

Progress = Optional[Callable[[str, float], object]]
MeshLike = Union["Part", str, "os.PathLike[str]", bytes, "tuple[ArrayLike, ArrayLike]"]


class Part:
    """A part that was read once, for many questions. ``load`` makes it."""

    def __init__(self, native: _native.Part) -> None:
        self._native = native

    @property
    def kind(self) -> str:
        """``connecting-rod`` or ``piston``; the list may grow."""
        return self._native.kind

    def __repr__(self) -> str:
        return f"<layload.Part: a {self.kind}>"


def load(mesh: MeshLike, job: JobLike = {}, *, progress: Progress = None) -> Part:
    """Reads a mesh and recognises the part in it: the path of an STL file, its bytes, or a pair of arrays, points of three numbers
    and triangles of three numbers of points, counter-clockwise seen from outside. Of the job only what it says of the part
    counts here. Raises ``Refused`` where there is no part."""
    return _loaded(mesh, of(job), progress)


def _loaded(mesh: MeshLike, job: Job, progress: Progress) -> Part:
    if isinstance(mesh, Part):
        return mesh
    if isinstance(mesh, (bytes, bytearray, memoryview)):
        return Part(_native.Part.from_bytes(bytes(mesh), job._native, progress))
    if isinstance(mesh, tuple):
        points, corners = mesh
        given = (_rows(points, np.float64, "points"), _rows(corners, np.uint32, "triangles"))
        return Part(_native.Part.from_triangles(*given, job._native, progress))
    return Part(_native.Part.from_file(mesh, job._native, progress))


def _rows(given: Any, kind: type, what: str) -> bytes:
    rows = np.asarray(given)
    if rows.ndim != 2 or rows.shape[1] != 3:
        raise ValueError(f"{what} are rows of three numbers, not an array of shape {rows.shape}")
    exact: np.ndarray[Any, Any] = rows.astype(kind, order="C", casting="unsafe")
    if kind is np.uint32 and not np.array_equal(exact, rows):
        raise ValueError(f"{what} are numbers of points: whole, from 0")
    return exact.tobytes()
