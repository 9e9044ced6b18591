"""The order of work: the iron only gets hotter, and no other order under that rule changes needles less often."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import settings as run
from hypothesis import strategies as st

from handouts import knowledge
from handouts.planning.order import chain, changes, order_of_work, steps
from handouts.records import Fabric
from tests.class_by_hand import fabric, nm, serger
from tests.classes_by_hand import sixty, twelve

BASE = knowledge.load()

some_fabrics = st.lists(
    st.tuples(st.integers(0, 2), st.sampled_from(["universal", "sharp", "jeans"]), st.sampled_from([70, 80])),
    min_size=1,
    max_size=6,
)


def made(rows: list[tuple[int, str, int]]) -> list[Fabric]:
    """Fabrics with these dots and needles."""
    return [
        fabric(f"F{n}", "Cloth", dots, needle_point=(point,), needle_nm=nm(size))
        for n, (dots, point, size) in enumerate(rows, start=1)
    ]


def needle_changes(fabrics: list[Fabric]) -> int:
    """Needle changes of the fabrics in this order, counted here by hand."""
    fitted = [(f.advised("needle_point")[0], f.advised("needle_nm")["start"]) for f in fabrics]
    return sum(a != b for a, b in pairwise(fitted))


@run(max_examples=60, deadline=None)
@given(some_fabrics)
def test_no_order_with_a_rising_iron_changes_needles_less(rows: list[tuple[int, str, int]]) -> None:
    """Against every permutation of up to six fabrics."""
    fabrics = made(rows)
    found = order_of_work(fabrics, BASE)
    rising = [
        p
        for p in permutations(fabrics)
        if [f.advised("press_dots") for f in p] == sorted(f.advised("press_dots") for f in p)
    ]
    assert needle_changes(found) == min(needle_changes(list(p)) for p in rising)


@pytest.mark.parametrize("fabrics", [twelve(), sixty()])
def test_the_iron_only_gets_hotter_and_nobody_is_lost(fabrics: tuple[Fabric, ...]) -> None:
    """Read down: 0 dots first, 3 last; every fabric once."""
    found = order_of_work(fabrics, BASE)
    dots = [f.advised("press_dots") for f in found]
    assert dots == sorted(dots)
    assert sorted(f.code for f in found) == sorted(f.code for f in fabrics)


def test_the_order_does_not_depend_on_the_list() -> None:
    """Rows in another order give the same changes."""
    there, back = order_of_work(twelve(), BASE), order_of_work(twelve()[::-1], BASE)
    assert changes(steps(there, BASE)) == changes(steps(back, BASE))


def test_a_needle_is_carried_over_to_the_hotter_iron() -> None:
    """Tidy order would go sharp, universal | sharp, universal: three changes; carried over it is two."""
    rows = [(1, "universal", 80), (1, "sharp", 70), (2, "universal", 80), (2, "sharp", 70)]
    found = order_of_work(made(rows), BASE)
    assert needle_changes(found) == 2


def test_chain_keeps_tidy_order_where_it_costs_nothing() -> None:
    """No common key: nothing to gain, so nothing is moved."""
    assert chain([[1, 2, 3], [4, 5]]) == [[1, 2, 3], [4, 5]]
    assert chain([[1, 2, 3], [1, 4]]) == [[2, 3, 1], [1, 4]]


def test_furry_cloth_comes_last_among_equals() -> None:
    """Common practice: furry and sequinned cloth last, because of the cleaning."""
    fur = fabric("F1", "Fur", facts={"families": ("fur fabric",)})
    found = order_of_work(
        [fur, fabric("F2", "Twill"), fabric("F3", "Poplin", facts={"trim": ("sequins",)}), fabric("F4", "Lawn")], BASE
    )
    assert [f.code for f in found] == ["F2", "F4", "F1", "F3"]
    assert [s.litters for s in steps(found, BASE)] == [False, False, True, True]


def test_setting_up_is_no_change_and_idle_stations_keep_their_setting() -> None:
    """An overlock that rests in between is not threaded anew; a cold iron heated once is set up, not changed."""
    cloths = [
        fabric("F1", "A", 0, serger=serger(4)),
        fabric("F2", "B", 1),
        fabric("F3", "C", 1, serger=serger(4)),
        fabric("F4", "D", 2, serger=serger(3, 1.3, 1.5)),
    ]
    assert [s.changes for s in steps(cloths, BASE)] == [(), (), (), ("iron", "overlock", "differential")]
    assert changes(steps(cloths, BASE)) == {"iron": 1, "needle": 0, "overlock": 1, "differential": 1}


def test_the_planned_order_beats_the_list() -> None:
    """The invented class of twelve: fewer changes of every station than as it was typed."""
    planned, listed = changes(steps(order_of_work(twelve(), BASE), BASE)), changes(steps(twelve(), BASE))
    assert all(planned[s] <= listed[s] for s in ("iron", "needle")) and sum(planned.values()) < sum(listed.values())
    assert planned["iron"] == 2, "three heats are used: two changes"
