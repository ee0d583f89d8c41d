"""The questions."""

from __future__ import annotations

import json
from typing import Any

from . import _native
from ._answers import Checked, Compared, Directed, Measured, Swept
from ._job import JobLike, of
from ._part import MeshLike, Progress, _loaded


def check(
    mesh: MeshLike,
    job: JobLike,
    *,
    quick: bool = False,
    cells: int | None = None,
    paint: bool = False,
    facets: bool = False,
    progress: Progress = None,
) -> Checked:
    """Will the part last. Its stress field is solved with so many ``cells``, 60 000 unless said, which takes seconds; ``quick``
    looks at sections alone, which may find a fault and is no answer otherwise. ``paint`` gives a number for every facet in
    ``painted``; ``facets`` puts it into the JSON too.

    ``progress`` is called with what begins and which share of the work lies behind, 0 to 1; where it returns False the question
    ends. So it does at Ctrl-C, by ``KeyboardInterrupt``. Raises ``Refused`` where there is no answer."""
    asked = {"question": "check", "quick": quick, "cells": cells, "paint": paint, "facets": facets}
    return Checked(_asked(mesh, job, asked, progress))


def directions(
    mesh: MeshLike,
    job: JobLike,
    *,
    quick: bool = False,
    cells: int | None = None,
    count: int | None = None,
    progress: Progress = None,
) -> Directed:
    """Which way up to print a rod, from ``count`` directions, 1000 unless said. Otherwise as ``check``."""
    asked = {"question": "directions", "quick": quick, "cells": cells, "count": count}
    return Directed(_asked(mesh, job, asked, progress))


def sweep(
    mesh: MeshLike,
    job: JobLike,
    from_rpm: float,
    to_rpm: float,
    *,
    count: int | None = None,
    quick: bool = False,
    cells: int | None = None,
    progress: Progress = None,
) -> Swept:
    """Life at ``count`` top speeds of the duty, 25 unless said. Otherwise as ``check``."""
    speeds = {"from_rpm": from_rpm, "to_rpm": to_rpm, "count": count}
    return Swept(_asked(mesh, job, {"question": "sweep", "quick": quick, "cells": cells, **speeds}, progress))


def walls(
    mesh: MeshLike,
    job: JobLike = {},
    *,
    least_mm: float | None = None,
    facets: bool = False,
    progress: Progress = None,
) -> Measured:
    """Which walls are too thin; of the job only the print is needed. ``least_mm`` flags walls thinner than that too, and
    ``facets`` puts the thickness of every facet into the JSON. Otherwise as ``check``."""
    return Measured(_asked(mesh, job, {"question": "walls", "least_mm": least_mm, "facets": facets}, progress))


def compare(
    old: MeshLike,
    new: MeshLike,
    job: JobLike,
    new_job: JobLike | None = None,
    *,
    quick: bool = False,
    cells: int | None = None,
    progress: Progress = None,
) -> Compared:
    """What changed between two parts, both with one job unless the new one has its own. Otherwise as ``check``."""
    old_job, own_job = of(job), of(job if new_job is None else new_job)
    pair = (_loaded(old, old_job, progress)._native, old_job._native, _loaded(new, own_job, progress)._native, own_job._native)
    return Compared(_native.compare(*pair, _text({"question": "compare", "quick": quick, "cells": cells}), progress))


def _asked(mesh: MeshLike, job: JobLike, question: dict[str, Any], progress: Progress) -> _native.Answer:
    known = of(job)
    return _native.ask(_loaded(mesh, known, progress)._native, known._native, _text(question), progress)


def _text(question: dict[str, Any]) -> str:
    return json.dumps({name: value for name, value in question.items() if value is not None}, allow_nan=False)
