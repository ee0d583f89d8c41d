"""Records of reports. Their types are in ``reports.pyi``, for editors and type checkers; while a program runs each is a
``Record``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from keyword import iskeyword
from typing import Any

from ._optional import OPTIONAL


class Record(Mapping[str, Any]):
    """What JSON has as an object: entries as attributes, ``record.margin``, and by name, ``record["margin"]``. What the report
    leaves out is None as an attribute; a name that Python does not take has a ``_`` after it: ``heat.from_``."""

    __slots__ = ("_entries",)

    def __init__(self, entries: Mapping[str, Any]) -> None:
        object.__setattr__(self, "_entries", {name: _shown(value) for name, value in entries.items()})

    def __getattr__(self, name: str) -> Any:
        # What Python does not take as a name has a `_` after it: `heat.from_`.
        name = name[:-1] if iskeyword(name.removesuffix("_")) and name.endswith("_") else name
        entries = {} if name.startswith("_") else self._entries
        if name in entries or name in OPTIONAL:
            return entries.get(name)
        raise AttributeError(f"the report has no {name}; it has {', '.join(entries)}")

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError("a report does not change")

    def __getitem__(self, name: str) -> Any:
        return self._entries[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def __dir__(self) -> list[str]:
        return [*super().__dir__(), *self._entries]

    def __repr__(self) -> str:
        shown = ", ".join(f"{name}={value!r}" for name, value in self._entries.items())
        return f"Record({shown})"

    def __reduce__(self) -> tuple[type[Record], tuple[dict[str, Any]]]:
        return Record, (self._entries,)


def _shown(value: Any) -> Any:
    if isinstance(value, Mapping):
        return value if isinstance(value, Record) else Record(value)
    return [_shown(entry) for entry in value] if isinstance(value, list) else value


def __getattr__(name: str) -> Any:
    if name.startswith("_"):
        raise AttributeError(name)
    return Record
