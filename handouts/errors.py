"""Exceptions. A finding in somebody's workbook is a Problem (problems.py), never one of these."""


class HandoutsError(Exception):
    """Something that stops the run and has a sentence for the person at the keyboard (exit 1)."""


class KnowledgeError(HandoutsError):
    """A knowledge file is broken: names the file, the record and the key. Our bug (exit 3)."""


class TemplateError(HandoutsError):
    """A template or its look is broken: names the file. Our bug (exit 3)."""
