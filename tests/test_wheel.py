"""The wheel carries everything: installed in a clean virtual environment it builds from another folder."""

from __future__ import annotations

import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from handouts import pipeline

TOP = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(TOP)]
    subprocess.run(command, check=True, capture_output=True)
    return next(folder.glob("*.whl"))


def test_templates_workbooks_and_knowledge_travel_in_the_wheel(wheel: Path) -> None:
    """Every file that is not Python is inside."""
    inside = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("templates", "workbooks"):
        for path in (TOP / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                assert f"handouts/shipped/{path.relative_to(TOP).as_posix()}" in inside
    for path in (TOP / "handouts").rglob("*.toml"):
        assert path.relative_to(TOP).as_posix() in inside


def test_a_clean_environment_builds_from_another_folder(wheel: Path, tmp_path: Path) -> None:
    """`pip install` of the wheel, then `handouts new` and `handouts build` elsewhere."""
    venv.create(tmp_path / "env", with_pip=True)
    python = tmp_path / "env" / "bin" / "python"
    subprocess.run([python, "-m", "pip", "install", "-q", str(wheel)], check=True, capture_output=True)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    handouts = [python, "-m", "handouts"]
    subprocess.run([*handouts, "new", "class.xlsx", "--example"], cwd=elsewhere, check=True, capture_output=True)
    done = subprocess.run([*handouts, "build", "class.xlsx"], cwd=elsewhere, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert list(elsewhere.glob("output/*/cards.pdf"))
    here = pipeline.build(pipeline.load_workshop(elsewhere / "class.xlsx"), tmp_path / "here").folder
    for name in ("advice.json", "class.html", "shop-marks.json"):
        made = elsewhere / "output" / here.name / name
        assert made.read_bytes() == (here / name).read_bytes(), (
            f"{name}: the wheel says something else than the checkout"
        )
