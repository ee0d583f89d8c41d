"""The job: what the engine does and how the part is printed."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Union

from . import _native
from ._refused import Refused

Source = Union[str, "os.PathLike[str]", Mapping[str, Any]]
JobLike = Union["Job", Source]


class Job:
    """What the engine does and how the part is printed. Made from the path of a job file (TOML), or from a dictionary with its
    keys: ``Job({"engine": {"stroke_mm": 46.0}})``; ``Job.from_text`` reads the text of a job file."""

    def __init__(self, source: Source = {}) -> None:
        if isinstance(source, Mapping):
            self._native = _native.Job.from_json(json.dumps(source, allow_nan=False))
            return
        path = Path(source)
        self._native = _native.Job.from_text(path.read_text(encoding="utf-8"))
        for name, purpose in self.missing_files():
            self.attach(purpose, _beside(path, name).read_text(encoding="utf-8"))

    @classmethod
    def from_text(cls, text: str) -> Job:
        """Reads the text of a job file. Files that it names are given by ``attach``."""
        job = cls()
        job._native = _native.Job.from_text(text)
        return job

    def to_text(self) -> str:
        """Writes a job file that reads back as this job."""
        return self._native.to_text()

    def __getitem__(self, key: str) -> str | None:
        """What is said under a key such as ``print.walls``, in the words of a job file."""
        return self._native.key(key)

    def __setitem__(self, key: str, value: object) -> None:
        """Sets what is said under a key: a number, a string, True or False, or a list of these; None takes it out."""
        self._native.set_key(key, None if value is None else json.dumps(value, allow_nan=False))

    def missing_files(self) -> list[tuple[str, str]]:
        """Names of files that the job refers to and that were not attached, each with its purpose."""
        return self._native.missing_files()

    def attach(self, purpose: str, text: str) -> None:
        """Gives the text of a file: ``material-card`` or ``pressure-table``."""
        self._native.attach(purpose, text)


def of(source: JobLike) -> Job:
    """A job from whatever names one."""
    return source if isinstance(source, Job) else Job(source)


def _beside(job_file: Path, name: str) -> Path:
    """A file that a job file names. Whoever wrote the job may be a stranger, so only files in its folder or below are read."""
    folder = job_file.resolve().parent
    found = (folder / name).resolve()
    if not found.is_relative_to(folder):
        raise Refused(
            f"{job_file} names {name!r}, which lies outside its folder",
            "file-outside",
            None,
            "put that file beside the job, or read it yourself and give its text by Job.attach",
        )
    return found
