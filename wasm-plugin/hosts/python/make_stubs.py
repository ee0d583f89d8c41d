"""Makes layload/reports.pyi and layload/_optional.py from the schemas of the reports, which the program prints; with --check it
tells whether those that are there are up to date.

    python wasm-plugin/hosts/python/make_stubs.py target/debug/layload
"""

import json
import subprocess
import sys
import textwrap
from keyword import iskeyword
from pathlib import Path

REPORTS = ["check", "directions", "sweep", "walls", "compare"]
PACKAGE = Path(__file__).parent / "layload"
PLAIN = {"string": "str", "number": "float", "integer": "int", "boolean": "bool", "null": "None"}


def kind(schema: dict) -> str:
    """The type of a value as Python writes it."""
    if "$ref" in schema:
        return schema["$ref"].rsplit("/", 1)[1]
    if "const" in schema:
        return f"Literal[{schema['const']!r}]"
    if "enum" in schema:
        return f"Literal[{', '.join(map(repr, schema['enum']))}]"
    for several in ("anyOf", "oneOf"):
        if several in schema:
            return " | ".join(dict.fromkeys(map(kind, schema[several])))
    said = schema.get("type", [])
    kinds = [said] if isinstance(said, str) else said
    return " | ".join(one(name, schema) for name in kinds) or "Any"


def one(name: str, schema: dict) -> str:
    if name == "array":
        return f"list[{kind(schema['items'])}]" if "items" in schema else "list[Any]"
    return PLAIN.get(name, "Record")


def described(name: str, schema: dict) -> str:
    """A class for an object, another name for anything else."""
    properties = schema.get("properties")
    if properties is None:
        return f"{name}: TypeAlias = {kind(schema)}"
    lines = [f"class {name}(Record):"]
    text = schema.get("description", "").replace("\n", " ")
    lines += textwrap.wrap(f'"""{text}"""', 116, initial_indent="    ", subsequent_indent="    ") if text else []
    for field, of in properties.items():
        missing = "" if field in schema.get("required", []) or "None" in kind(of) else " | None"
        lines.append(f"    {field}{'_' if iskeyword(field) else ''}: {kind(of)}{missing}")
    return "\n".join(lines)


def made(program: str) -> dict[Path, str]:
    classes, optional, names = {}, set(), set()
    for report in REPORTS:
        schema = json.loads(subprocess.run([program, "schema", report], check=True, capture_output=True).stdout)
        classes |= schema.pop("$defs", {}) | {schema["title"]: schema}
    for schema in classes.values():
        names |= set(schema.get("properties", {}))
        optional |= set(schema.get("properties", {})) - set(schema.get("required", []))
    taken = names & {"get", "items", "keys", "values", "json", "words", "painted"}
    assert not taken, f"a report has entries whose names are taken: {taken}"
    stubs = "\n\n".join(described(name, classes[name]) for name in sorted(classes))
    optional_lines = "".join(f'    "{name}",\n' for name in sorted(optional))
    return {
        PACKAGE / "reports.pyi": "# Made by make_stubs.py from the schemas of the reports; do not edit.\n"
        "from collections.abc import Iterator, Mapping\n"
        "from typing import Any, Literal, TypeAlias\n\n"
        "class Record(Mapping[str, Any]):\n"
        "    def __init__(self, entries: Mapping[str, Any]) -> None: ...\n"
        "    def __getitem__(self, name: str) -> Any: ...\n"
        "    def __iter__(self) -> Iterator[str]: ...\n"
        "    def __len__(self) -> int: ...\n\n"
        f"{stubs}\n",
        PACKAGE / "_optional.py": '"""Entries that a report may leave out. Made by make_stubs.py; do not edit."""\n\n'
        f"OPTIONAL = frozenset({{\n{optional_lines}}})\n",
    }


def main() -> int:
    stale = False
    for path, text in made(sys.argv[1]).items():
        if sys.argv[2:] != ["--check"]:
            path.write_text(text)
        elif not path.exists() or path.read_text() != text:
            print(f"{path} is not what the schemas make: python {__file__} PROGRAM", file=sys.stderr)
            stale = True
    return int(stale)


if __name__ == "__main__":
    sys.exit(main())
