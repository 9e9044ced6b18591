"""`python -m tests.renew`: writes again everything that is generated and committed. The tests say when it is stale.

The workbooks of workbooks/, the tables of README and DEVELOPERS, and output/example/ (the built example class with a
picture of a card and of the comparison table).
"""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

from handouts import pipeline, problems, sheets
from tests import agreement, renew_books

TOP = Path(__file__).parent.parent
BOOK = TOP / "workbooks" / "outerwear.xlsx"
EXAMPLE = TOP / "output" / "example"
PICTURED = {"card.png": ("cards.pdf", "boiled wool"), "comparison.png": ("comparison.pdf", "")}
"""Picture → the file it shows and the word that its page must hold (else its first page)."""


def columns_table() -> str:
    """The columns of the Fabrics sheet as a Markdown table."""
    rows = ["| heading | what to write |", "|---|---|"]
    rows += [
        f"| {column.title()}{' (needed)' if column.required else ''} | {meaning(column)} |"
        for column in sheets.FABRICS.columns
    ]
    return "\n".join(rows)


def meaning(column: sheets.Column) -> str:
    """A column's help, choices and limits in one line."""
    own = [
        {"choice": "your choice", "tested": "from your test seam", "measured": "measured by you"}.get(column.group, "")
    ]
    choices = [", ".join(column.choices)]
    limits = [f"{column.low:g} to {column.high:g}" if column.low is not None and column.high is not None else ""]
    return "; ".join(part for part in (column.help.rstrip("."), *choices, *limits, *own) if part)


def problems_table() -> str:
    """Every kind of finding as a Markdown table, worst first."""
    kinds = sorted(
        problems.catalogue().values(), key=lambda kind: (problems.SEVERITIES.index(kind.severity), kind.code)
    )
    return "\n".join(
        ["| finding | weight | code |", "|---|---|---|", *(f"| {k.title} | {k.severity} | `{k.code}` |" for k in kinds)]
    )


def readme() -> str:
    """README.md with its tables written again."""
    return marked("README.md", columns=columns_table(), problems=problems_table())


def developers() -> str:
    """DEVELOPERS.md with its table of the published rows that we do not follow written again."""
    return marked("DEVELOPERS.md", differences=agreement.differences())


def marked(file: str, **tables: str) -> str:
    """A file of ours with the tables between its marks written again."""
    text = (TOP / file).read_text(encoding="utf-8")
    for name, table in tables.items():
        pattern = re.compile(rf"(<!-- {name}:[^\n]*-->\n).*?(<!-- end -->)", re.DOTALL)
        text, found = pattern.subn(lambda match, table=table: f"{match[1]}{table}\n{match[2]}", text)  # type: ignore[misc]
        assert found == 1, f"{file}: the marks of the table {name} are missing"
    return text


def built(folder: Path) -> Path:
    """The example class built into a folder of `folder`."""
    workshop = pipeline.load_workshop(BOOK)
    return pipeline.build(workshop, folder).folder


def example(built_in: Path) -> None:
    """output/example/ from a fresh build, with its pictures."""
    shutil.rmtree(EXAMPLE, ignore_errors=True)
    shutil.copytree(built_in, EXAMPLE)
    for picture, (pdf, word) in PICTURED.items():
        number = str(next(pages_with(EXAMPLE / pdf, word)))
        target = EXAMPLE / picture.removesuffix(".png")
        subprocess.run(
            ["pdftoppm", "-r", "110", "-png", "-singlefile", "-f", number, "-l", number, EXAMPLE / pdf, target],
            check=True,
        )


def pages_with(pdf: Path, word: str) -> Iterator[int]:
    """The numbers of the pages that hold a word, from 1."""
    import pypdf

    for number, page in enumerate(pypdf.PdfReader(pdf).pages, start=1):
        if word in page.extract_text().lower():
            yield number


def main() -> None:
    """Everything again."""
    renew_books.main()
    (TOP / "README.md").write_text(readme(), encoding="utf-8")
    (TOP / "DEVELOPERS.md").write_text(developers(), encoding="utf-8")
    with tempfile.TemporaryDirectory() as aside:
        example(built(Path(aside)))
    print(
        f"Written again: README.md, DEVELOPERS.md, {EXAMPLE.relative_to(TOP)}. Look at the pictures before you commit them."
    )


if __name__ == "__main__":
    main()
