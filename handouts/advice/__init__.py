"""From facts to advice: the rules that hold for a fabric, and one Decision per topic with its whole trace."""

from handouts.advice.advise import advise
from handouts.advice.changes import changes, limits
from handouts.advice.choices import choices
from handouts.advice.cloths import Found, find_cloth
from handouts.advice.facts import facts_of
from handouts.advice.house import HouseRow, house_rules
from handouts.advice.likeness import COMPARED, Neighbours, likenesses, related
from handouts.advice.measures import odd_measures
from handouts.advice.tested import TESTED, disagreements

__all__ = [
    "COMPARED",
    "TESTED",
    "Found",
    "HouseRow",
    "Neighbours",
    "advise",
    "changes",
    "choices",
    "disagreements",
    "facts_of",
    "find_cloth",
    "house_rules",
    "likenesses",
    "limits",
    "odd_measures",
    "related",
]
