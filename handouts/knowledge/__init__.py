"""What the trade knows: fibres, cloths, needles, topics, rules and their sources, as TOML beside this file."""

from handouts.knowledge.load import load

__all__ = ["load"]
