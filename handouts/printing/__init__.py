"""Page markup → PDF. The only part that knows reportlab. (“Pressing” always means an iron.)"""

from handouts.printing.document import Printed, print_pages
from handouts.printing.fonts import missing_glyphs
from handouts.printing.grid import untiled

__all__ = ["Printed", "missing_glyphs", "print_pages", "untiled"]
