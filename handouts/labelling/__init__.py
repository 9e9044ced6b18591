"""Fibre content and care: the cell read, the statement for a market, care wording, flags for the card."""

from handouts.labelling.content import read_content
from handouts.labelling.flags import flags
from handouts.labelling.iron_limit import iron_limit
from handouts.labelling.origin import origin_problems
from handouts.labelling.statement import label

__all__ = ["flags", "iron_limit", "label", "origin_problems", "read_content"]
