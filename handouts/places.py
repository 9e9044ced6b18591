"""Where the files that are not Python live, in a checkout and in an installed wheel."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def shipped(folder: str) -> Path:
    """The folder `templates` or `workbooks`: inside the wheel when installed, beside the package in a checkout."""
    inside = PACKAGE / "shipped" / folder
    return inside if inside.is_dir() else PACKAGE.parent / folder
