"""`python -m tests.renew_books`: writes the workbooks of the folder workbooks/ again, from workbooks/data/*.toml."""

from __future__ import annotations

from pathlib import Path

from handouts import workbook
from tests.books import content, words

FOLDER = Path(__file__).parent.parent / "workbooks"


def main() -> None:
    """Those whose content changed; packing alone is no change."""
    for name, data in workbook.example_books(words()).items():
        path, aside = FOLDER / name, FOLDER / f".{name}"
        aside.write_bytes(data)
        same = path.exists() and content(path) == content(aside)
        if same:
            aside.unlink()
        else:
            aside.replace(path)
        print(f"{'unchanged' if same else 'written again'}: workbooks/{name}")


if __name__ == "__main__":
    main()
