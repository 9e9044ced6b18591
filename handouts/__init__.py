"""From a workbook of fabrics to printed sewing handouts."""

__version__ = "0.1.0"
