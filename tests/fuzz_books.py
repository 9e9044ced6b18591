"""`python -m tests.fuzz_books SEED COUNT`: reads COUNT mutated workbooks and prints what came of them as JSON.

A process of its own, so that a reader that ends its process is seen. The same seed mutates the same way.
"""

from __future__ import annotations

import io
import json
import random
import sys
import tempfile
import time
import zipfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from handouts import workbook
from tests.books import FABRIC, HEADINGS, WORDS, make, ods, ods_row, packed, text_cell
from tests.old_books import lines, old_book
from tests.read_books import peak_mb

HOSTILE = (
    b"XFD1048576",
    b"A99999999999999999999",
    b"-1",
    b"4294967295",
    b"18446744073709551616",
    b"NaN",
    b"1e400",
    b"&#0;",
    b"&x;",
    b"]]>",
    b"<!DOCTYPE x [<!ENTITY x 'y'>]>",
    b"\xff\xfe",
    b"\xf0\x9f\xa7\xb5",
    b"",
    b"<row>",
    b"</c>",
    b'<c r="A1"/>',
    b't="s"',
    b't="e"',
    b"../../../etc/passwd",
    b"=cmd|'/C calc'!A0",
    b"0" * 40_000,
)


def seeds(folder: Path) -> list[Path]:
    """One healthy workbook of each kind."""
    rows = [
        [*HEADINGS, "Weight (g/m²)", "Needle", "Sheer"],
        [*FABRIC, 350, "jeans 90/14", "yes"],
        ["Red", *FABRIC[1:], "5 %"],
    ]
    new = make(folder / "a.xlsx", {"Class": [["Setting", "Value"], ["Students", 8]], "Fabrics": rows})
    open_one = ods(folder / "b.ods", ods_row([text_cell(word) for word in FABRIC], 3))
    (folder / "c.xls").write_bytes(old_book(lines([HEADINGS, FABRIC, FABRIC])))
    text = "\n".join(";".join(map(str, row)) for row in rows)
    (folder / "d.csv").write_text(text, encoding="utf-8")
    return [new, new, open_one, folder / "c.xls", folder / "d.csv"]


def mutate_bytes(data: bytes, chance: random.Random) -> bytes:
    """A few bytes changed, cut, doubled or replaced by something nasty."""
    body = bytearray(data)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(body) + 1)
        end = min(len(body), at + chance.choice((1, 1, 2, 8, 40)))
        body[at:end] = chance.choice(
            (bytes([chance.randrange(256)]), chance.choice(HOSTILE), b"", bytes(body[at:end] * 2))
        )
    return bytes(body)


def mutate_part(data: bytes, chance: random.Random) -> bytes:
    """An archive with one of its parts mutated, lost or doubled, packed again so that sums and sizes are right."""
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        parts = {name: book.read(name) for name in book.namelist()}
    name = chance.choice(sorted(parts))
    if chance.random() < 0.1:
        del parts[name]
    elif chance.random() < 0.3:
        parts[name] = swap_value(parts[name], chance)
    else:
        parts[name] = mutate_bytes(parts[name], chance)
    return packed(parts)


def swap_value(text: bytes, chance: random.Random) -> bytes:
    """The value of one attribute replaced by something nasty."""
    pieces = text.split(b'"')
    if len(pieces) > 2:
        pieces[chance.randrange(1, len(pieces), 2)] = chance.choice(HOSTILE)
    return b'"'.join(pieces)


def run(seed: int, count: int) -> dict[str, object]:
    """Reads them all; every one must come back as a Book."""
    chance = random.Random(seed)
    came: Counter[str] = Counter()
    slowest = 0.0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        healthy = [(path.suffix, path.read_bytes()) for path in seeds(folder)]
        for _ in range(count):
            ending, data = chance.choice(healthy)
            ways: list[Callable[[bytes, random.Random], bytes]] = [mutate_bytes]
            ways += [mutate_part] * 3 if ending in (".xlsx", ".ods") else []
            path = folder / f"mutated{ending}"
            path.write_bytes(chance.choice(ways)(data, chance))
            start = time.process_time()
            book = workbook.read(path, WORDS)
            slowest = max(slowest, time.process_time() - start)
            came[book.problems[0].code if book.problems and book.problems[0].severity == "stop" else "read"] += 1
    return {"came": dict(came), "slowest_s": round(slowest, 2), "peak_mb": peak_mb()}


if __name__ == "__main__":
    print(json.dumps(run(int(sys.argv[1]), int(sys.argv[2]))))
