"""The shape of the code: leaves never import each other, the base imports no leaf, heavy libraries stay in their rooms."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "handouts"
LEAVES = ("knowledge", "workbook", "advice", "labelling", "planning", "pages", "printing")
ROOMS = {
    "openpyxl": ("workbook",),
    "python_calamine": ("workbook",),
    "pandas": ("workbook", "advice", "records"),  # records names the type only
    "jinja2": ("pages",),
    "reportlab": ("printing",),
    "segno": ("printing",),
}
TOP = ("pipeline", "cli", "__main__")


def imported(source: str) -> set[str]:
    """Every module that a source text imports, anywhere in it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{name.name}" for name in node.names)}
    return found


def room(module: str) -> str:
    """`handouts.pages.card` → `pages`."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 and parts[0] == "handouts" else ""


def faults(where: str, source: str) -> list[str]:
    """What one file imports against the star; `where` is its room (a leaf, a base module, pipeline, cli)."""
    seen = imported(source)
    if where in TOP:
        return []
    others = [leaf for leaf in LEAVES if leaf != where]
    bad = [name for name in seen if room(name) in others or room(name) in TOP]
    bad += [
        name
        for name in seen
        for library, homes in ROOMS.items()
        if name.split(".")[0] == library and where not in homes
    ]
    return sorted(bad)


def files() -> list[tuple[str, Path]]:
    """Every file of the package with its room."""
    found = [(path.relative_to(PACKAGE).parts[0].removesuffix(".py"), path) for path in sorted(PACKAGE.rglob("*.py"))]
    return [(where, path) for where, path in found if where != "shipped"]


def test_the_star_holds() -> None:
    """A leaf imports the base, the standard library and its own third party, nothing else."""
    looked_at = files()
    assert {where for where, _ in looked_at} >= set(LEAVES), "the test must have seen every leaf"
    assert {str(path): faults(where, path.read_text(encoding="utf-8")) for where, path in looked_at} == {
        str(path): [] for _, path in looked_at
    }


@pytest.mark.parametrize(
    ("where", "source"),
    [
        ("pages", "from handouts.advice import decide"),
        ("units", "def f():\n    import handouts.knowledge"),
        ("planning", "import openpyxl"),
        ("pages", "def f():\n    import pandas as pd"),
        ("advice", "from handouts import pipeline"),
    ],
)
def test_a_planted_fault_is_seen(where: str, source: str) -> None:
    """The test above can fail."""
    assert faults(where, source)


def test_help_imports_nothing_heavy() -> None:
    """`handouts --help` imports neither pandas nor reportlab nor openpyxl nor jinja2."""
    run = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "handouts", "--help"], capture_output=True, text=True
    )
    assert run.returncode == 0 and "handouts new" in run.stdout
    loaded = {line.split("|")[-1].strip().split(".")[0] for line in run.stderr.splitlines()}
    assert "argparse" in loaded, "the listing must have been read"
    assert not loaded & {"pandas", "numpy", "reportlab", "openpyxl", "jinja2", "python_calamine"}
