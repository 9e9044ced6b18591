"""The workbook's sheets and columns, declared once. Reader, checks, starter, drop-downs, README and rules all read this.

A column's key is also the name of the fact it fills, with the unit as suffix.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from handouts.units import CM_PER_INCH, GSM_PER_OZ_YD2, M_PER_YARD, MM_PER_INCH


@dataclass(frozen=True)
class Unit:
    """How a column is written in the other system: its unit there and metric per one of it. spi is 25.4 / mm."""

    metric: str
    imperial: str
    factor: float
    reciprocal: bool = False


GSM = Unit("g/m²", "oz/yd²", GSM_PER_OZ_YD2)
CM = Unit("cm", "in", CM_PER_INCH)
MM = Unit("mm", "in", MM_PER_INCH)
STITCH = Unit("mm", "per inch", MM_PER_INCH, reciprocal=True)
PER_METRE = Unit("metre", "yard", 1 / M_PER_YARD)


@dataclass(frozen=True)
class Column:
    """One column (or, on the Class sheet, one setting).

    kind: text, number, percent, grade (0 to 3), yes_no, choice, cloth, content, needle, date, photo.
    heading: as printed, `{unit}` where the unit stands. low and high: the range that is believed, in the metric unit.
    choices: a vocabulary written here; `vocabulary` names one that the knowledge holds (cloths, fibres, finishes, needles).
    several: the cell may name more than one choice, separated by commas.
    spoken: other headings people write. group: facts, choice (the teacher's word wins), tested, or measured (facts are worked out of it).
    """

    key: str
    heading: str
    kind: str = "text"
    unit: Unit | None = None
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    vocabulary: str = ""
    help: str = ""
    spoken: tuple[str, ...] = ()
    required: bool = False
    group: str = "facts"
    several: bool = False
    default: object = None
    example: str = ""

    def title(self, imperial: bool = False) -> str:
        """The heading with its unit: `Weight (g/m²)`."""
        unit = "" if self.unit is None else self.unit.imperial if imperial else self.unit.metric
        return self.heading.format(unit=unit)


@dataclass(frozen=True)
class Sheet:
    """A sheet: `list` has one record a row under its headings, `pairs` has a setting and its value a row."""

    key: str
    title: str
    layout: str
    columns: tuple[Column, ...]

    def column(self, key: str) -> Column:
        """The column with this key."""
        return next(c for c in self.columns if c.key == key)


YES_NO = ("yes", "no")
NAPS = ("none", "brushed", "short", "deep")
CHECKS = ("none", "stripe", "even check", "uneven check")
TEXTURES = ("smooth", "slub", "bouclé", "puckered", "crinkled", "embossed", "pleated", "open weave", "corded")
COATINGS = ("none", "wax", "PU", "PVC", "laminated", "water repellent", "rubber", "foil", "foam backed", "membrane")
TRIMS = ("none", "sequins", "beads", "embroidery", "foil print", "flock", "glitter", "plastic print", "rhinestones", "studs", "feathers")
FINISHES = ("none", "crease resist", "fusible backed", "resin", "mercerised", "sanded", "glazed", "flame retardant", "preshrunk")
COLOURS = ("pale", "mid", "dark", "print", "unfast dye")
IRON_WORDS = ("no iron", "synthetics", "silk", "wool", "cotton", "linen")
STEAMS = ("none", "low", "medium", "high")
SHOP_CARDS = ("85 x 55 mm", "A7", "3 x 5 in", "A6")
SHOP_SHEETS = ("crop marks", "tile")
PAGE_TYPES = ("cards", "comparison", "binder", "shop cards", "plan")

CLASS = Sheet(
    "class",
    "Class",
    "pairs",
    (
        Column("title", "Title", help="Printed on every page.", default="Sewing class", spoken=("Class", "Name")),
        Column("teacher", "Teacher", spoken=("Instructor", "Shop")),
        Column("date", "Date", "date"),
        Column("place", "Place", spoken=("Room", "Venue")),
        Column("units", "Units", "choice", choices=("metric", "imperial", "both"), default="both", help="What pages print."),
        Column("paper", "Paper", "choice", choices=("A4", "Letter"), default="A4", help="What the printer holds."),
        Column("market", "Market", "choice", choices=("US", "EU", "UK", "none"), default="none", help="Whose rules the fibre statement follows."),
        Column("prepared_by", "Prepared by", help="Who answers for the facts on the cards."),
        Column("students", "Students", "number", low=1, high=200, default=8),
        Column("machines", "Machines", "number", low=0, high=200, default=4),
        Column("sergers", "Sergers", "number", low=0, high=100, default=1, spoken=("Overlockers",)),
        Column("irons", "Irons", "number", low=0, high=100, default=2),
        Column("iron_watts", "Iron watts", "number", low=100, high=4000, default=1800, help="On the iron's rating plate.", spoken=("Iron (W)",)),
        Column("circuits", "Circuits", "number", low=1, high=50, default=1, help="Separate circuits for the sockets you use: ask the building."),
        Column("circuit_volts", "Circuit volts", "number", low=90, high=260, default=230),
        Column("circuit_amps", "Circuit amps", "number", low=5, high=63, default=16),
        Column("minutes_per_sample", "Minutes per sample", "number", low=1, high=240, default=12),
        Column("sample_width_cm", "Sample width ({unit})", "number", CM, 2, 100, default=15),
        Column("sample_height_cm", "Sample height ({unit})", "number", CM, 2, 100, default=20),
        Column("samples_per_student", "Samples per student", "number", low=1, high=50, default=2, help="Pieces of every fabric that each student sews."),
        Column("spare_pct", "Spare (%)", "percent", low=0, high=100, default=10),
        Column("seam_per_sample_cm", "Seam per sample ({unit})", "number", CM, 1, 500, default=30),
        Column("currency", "Currency", default="", help="Printed before or after prices, like € or USD."),
        Column("pages", "Pages", help="Which page types to build, separated by commas: " + ", ".join(PAGE_TYPES) + ". Empty builds all.", default=""),
        Column("business", "Business name", help="Printed on shop cards as you type it.", spoken=("Shop name",)),
        Column("shop_card", "Shop card", "choice", choices=SHOP_CARDS, default="A7", help="Size of a care card, cut out."),
        Column("shop_sheet", "Shop sheet", "choice", choices=SHOP_SHEETS, default="crop marks", help="Crop marks: true size, cut at the marks. Tile: cards share the sheet's edges, fewer cuts."),
        Column("symbols_right", "Care symbol licence", help="Empty: words only. Care symbols are others' trade mark: write your licence and shop cards show them too."),
    ),
)

FABRICS = Sheet(
    "fabrics",
    "Fabrics",
    "list",
    (
        Column("code", "Code", help="Short mark for cards and lists, like W3. Empty: F1, F2 …", spoken=("No.", "Number", "Article", "SKU", "ID")),
        Column("name", "Name", required=True, help="What the card is called.", example="Plum boiled wool", spoken=("Fabric", "Fabric name", "Description", "Title")),
        Column("cloth", "Cloth", "cloth", vocabulary="cloths", required=True, help="What you call it, or its construction.", example="boiled wool", spoken=("Type", "Fabric type", "Cloth type", "Kind", "Construction", "Weave")),
        Column("fibre_content", "Fibre content", "content", required=True, help="As on the bolt end: 97% cotton, 3% elastane. Nobody knows: unknown.", example="100% wool", spoken=("Fiber content", "Fibre", "Fiber", "Fibres", "Fibers", "Composition", "Content", "Material")),
        Column("trim_fibres", "Trim fibres", "content", help="Fibres of lace, braid or lining sewn with it: the iron must suit these too.", spoken=("Trim fibers",)),
        Column("weight_gsm", "Weight ({unit})", "number", GSM, 8, 1500, help="Weigh a 10 × 10 cm square in grams; times 100.", example="350", spoken=("gsm", "Weight", "g/m2", "grammage")),
        Column("width_cm", "Width ({unit})", "number", CM, 2, 400, help="Usable width between the selvedges."),
        Column("thickness_mm", "Thickness ({unit})", "number", MM, 0.02, 40),
        Column("stretch_across_pct", "Stretch across (%)", "percent", low=0, high=300, help="Fold, mark 10 cm across, pull to the first firm stop: 13 cm is 30 %.", spoken=("Stretch", "Crosswise stretch", "Stretch %")),
        Column("stretch_along_pct", "Stretch along (%)", "percent", low=0, high=300, spoken=("Lengthwise stretch",)),
        Column("sheer", "Sheer", "yes_no", help="Yes if you can read print through one layer.", spoken=("Transparent",)),
        Column("slippery", "Slippery (0-3)", "grade", low=0, high=3, help="0 clings to itself, 1 smooth, 2 slides on the table, 3 falls off it."),
        Column("frays", "Frays (0-3)", "grade", low=0, high=3, help="Rub a cut edge ten times: 0 nothing, 1 a few threads, 2 a fringe to 3 mm, 3 more.", spoken=("Fraying", "Ravels")),
        Column("curls", "Curls", "yes_no", help="Yes if a cut edge rolls up."),
        Column("nap", "Nap", "choice", choices=NAPS, help="Pile: short is up to 5 mm, deep is more.", spoken=("Pile",)),
        Column("one_way", "One-way", "yes_no", help="Yes if print, sheen or nap has a top and a bottom.", spoken=("Oneway", "Directional", "One way")),
        Column("check", "Check or stripe", "choice", choices=CHECKS, help="Even: folded through a bar and turned, every line meets.", spoken=("Check", "Plaid", "Stripe")),
        Column("repeat_cm", "Repeat ({unit})", "number", CM, 0.1, 200, help="Height of one repeat of the pattern."),
        Column("texture", "Texture", "choice", choices=TEXTURES),
        Column("coating", "Coating", "choice", choices=COATINGS),
        Column("trim", "Trim", "choice", choices=TRIMS, several=True, help="Several: separate with commas.", spoken=("Trims", "Decoration")),
        Column("finish", "Finish", "choice", choices=FINISHES, several=True, help="Several: separate with commas."),
        Column("colour", "Colour", "choice", choices=COLOURS, spoken=("Color",)),
        Column("shrink_length_pct", "Shrinkage length (%)", "percent", low=-5, high=60, help="(before − after) ÷ before × 100, after one wash.", spoken=("Shrinkage", "Shrinkage (%)")),
        Column("shrink_width_pct", "Shrinkage width (%)", "percent", low=-5, high=60),
        Column("price_per_m", "Price per {unit}", "number", PER_METRE, 0, 10000, spoken=("Price", "Price per meter")),
        Column("supplier_care", "Supplier care", help="The care words on the bolt, as they stand.", spoken=("Care", "Care instructions")),
        Column("photo", "Photo", "photo", help="File name of a picture beside the workbook."),
        Column("notes", "Notes", help="Printed on the card as your own words.", spoken=("Note", "Remarks", "Comments")),
        Column("origin", "Origin", help="Shop: as the supplier states it, like “Made in Portugal”.", spoken=("Made in", "Country")),
        Column("link", "Link", help="Shop: an address for the square code on the care card.", spoken=("URL", "Web", "QR")),
        Column("shop_cards", "Care cards", "number", low=0, high=500, help="Shop: how many care cards to print; empty is 1."),
        Column("needle", "Needle", "needle", vocabulary="needles", group="choice", help="Your own choice, like universal 90/14. It wins over the rules."),
        Column("stitch_mm", "Stitch length ({unit})", "number", STITCH, 0.3, 7, group="choice", spoken=("Stitch",)),
        Column("seam_finish", "Seam finish", "choice", vocabulary="finishes", group="choice", spoken=("Finish seam",)),
        Column("iron", "Iron", "choice", choices=IRON_WORDS, group="choice", help="Your own choice of setting."),
        Column("steam", "Steam", "choice", choices=STEAMS, group="choice"),
        Column("tested_needle", "Tested needle", "needle", vocabulary="needles", group="tested", help="What the test seam showed."),
        Column("tested_stitch_mm", "Tested stitch ({unit})", "number", STITCH, 0.3, 7, group="tested"),
        Column("tested_iron", "Tested iron", "choice", choices=IRON_WORDS, group="tested"),
        Column("tested_on", "Tested on", "date", group="tested"),
        Column("swatch_g", "Swatch (g)", "number", low=0.05, high=2000, group="measured", help="Weigh a swatch and give its two sides: the weight is worked out."),
        Column("swatch_width_cm", "Swatch width ({unit})", "number", CM, 2, 200, group="measured"),
        Column("swatch_length_cm", "Swatch length ({unit})", "number", CM, 2, 1000, group="measured"),
        Column("relaxed_cm", "Relaxed ({unit})", "number", CM, 2, 100, group="measured", help="Two marks on a fold, well inside the edge, cloth lying flat: usually 10 cm."),
        Column("stretched_across_cm", "Stretched across ({unit})", "number", CM, 2, 400, group="measured", help="The same marks across the cloth at the first firm stop."),
        Column("recovered_across_cm", "Recovered across ({unit})", "number", CM, 2, 400, group="measured", help="The same marks after a minute lying flat."),
        Column("stretched_along_cm", "Stretched along ({unit})", "number", CM, 2, 400, group="measured"),
        Column("recovered_along_cm", "Recovered along ({unit})", "number", CM, 2, 400, group="measured"),
    ),
)

HOUSE = Sheet(
    "house",
    "House rules",
    "list",
    (
        Column("when", "When", help="A heading of the Fabrics sheet, Cloth, Fibre, Family or Structure. Several conditions: one row each, Topic in the last.", example="Weight (g/m²)"),
        Column("is", "Is", help="A word, several words with commas, not and a word, or a range: over 300, under 90, 90 to 200.", example="over 300"),
        Column("topic", "Topic", vocabulary="topics", example="foot"),
        Column("advice", "Advice", help="What the card shall say, or the setting.", example="Walking foot."),
        Column("because", "Because", help="Printed as the reason.", example="Our tables are slippery."),
    ),
)

SUPPLIES = Sheet(
    "supplies",
    "Supplies",
    "list",
    (
        Column("item", "Item", help="Like: needles universal 80/12; polyester thread; chalk."),
        Column("pack_size", "Pack size", "number", low=0.001, high=100000, help="Pieces in a pack; of thread, metres (yards if you print imperial)."),
        Column("price", "Price", "number", low=0, high=100000),
    ),
)

SHEETS: tuple[Sheet, ...] = (CLASS, FABRICS, HOUSE, SUPPLIES)

FACTS: Mapping[str, str] = {
    # facts that no cell holds: name → kind. Rules may test these and every Fabrics column of the group `facts`.
    "construction": "choice",
    "structure": "choice",
    "families": "set",
    "fibres": "set",
    "fibre_groups": "set",
    "main_fibre": "choice",
    "elastane_pct": "number",
    "metallic_pct": "number",
    "synthetic_pct": "number",
    "wool_pct": "number",
    "fibre_count": "number",
    "recovery_pct": "number",
    "growth_pct": "number",
    "supplier_dots": "number",
    "supplier_steam": "choice",
}
"""Derived facts and their kinds: set (contains any of), choice (is one of), number."""


def fact_kinds() -> dict[str, str]:
    """Every fact a rule may test and its kind: number, yes_no, choice or set."""
    plain = {"grade": "number", "percent": "number", "text": "choice", "cloth": "choice"}
    typed = {c.key: "set" if c.several else plain.get(c.kind, c.kind) for c in FABRICS.columns if c.group == "facts"}
    return {**typed, **FACTS}
