"""Fibre content and care: the cell read, the statement for a market, care wording, flags for the card."""

from handouts.labelling.content import read_content
from handouts.labelling.flags import flags
from handouts.labelling.statement import label
from handouts.labelling.wording import words

__all__ = ["flags", "label", "read_content", "words"]
