"""Make the shipped fonts from the installed originals (Debian package `fonts-inter`, version 3.019).

Run by hand when the set of signs changes: `python assets/fonts/subset.py`, with fontTools installed.

The originals hold 2,500 glyphs with cubic (CFF) outlines. What ships keeps Latin, Greek and Cyrillic
letters and the signs the screens and reports write, with TrueType outlines, because one file then
serves the screen and a PDF that must embed its fonts. Figures are the tabular ones, so that numbers
under each other line up without text shaping. The licence declares no reserved font name, so the
family keeps its name; the version text says what was changed.
"""

from pathlib import Path

from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont, newTable

SOURCE = Path("/usr/share/fonts/opentype/inter")
LICENCE = Path("/usr/share/doc/fonts-inter/copyright")
WEIGHTS = ("Regular", "SemiBold", "Bold")
CHANGED = "; subset, TrueType outlines and tabular figures for Throatmark"

LETTERS = (
    range(0x20, 0x7F),  # ASCII
    range(0xA0, 0x180),  # Latin-1 and Latin Extended-A: with it ½ ¼ ¾ ¹ ² ³ ± × ° µ · Ø
    range(0x192, 0x193),
    range(0x218, 0x21C),  # Romanian commas below
    range(0x2B0, 0x2DE),  # spacing accents
    range(0x300, 0x329),  # combining accents
    range(0x384, 0x3CF),  # Greek
    range(0x400, 0x460),  # Cyrillic
    range(0x1E80, 0x1E86),
    range(0x1E9E, 0x1E9F),
    range(0x1EF2, 0x1EF4),
)
SIGNS = (
    "\u2002\u2003\u2007\u2008\u2009\u200a\u200b\u2010\u2011\u2012–—―‘’‚“”„†‡•…\u202f‰′″‹›⁄"
    "⁰⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉€№™⅓⅔⅛⅜⅝⅞←↑→↓↔∂∅∆∏∑−√∞∫≈≠≤≥⌫■□▲△▶▼●○◆✓✗⚠"
)
ERROR = 1.0  # font units (of 2,816 to the em) a quadratic may stray from the cubic it replaces


def make(weight: str) -> Path:
    """Write the shipped font of one weight beside this file and return its path."""
    font = TTFont(SOURCE / f"Inter-{weight}.otf")
    _take_tabular_figures(font)
    options = Options()
    options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl"]
    options.name_IDs = ["*"]
    options.drop_tables += ["DSIG"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for block in LETTERS for code in block] + [ord(sign) for sign in SIGNS])
    subsetter.subset(font)
    _to_truetype(font)
    version = str(font["name"].getDebugName(5))
    font["name"].setName(version + CHANGED, 5, 3, 1, 0x409)
    font["name"].removeNames(platformID=1)
    font.recalcTimestamp = False  # the same input gives the same bytes
    target = Path(__file__).with_name(f"Inter-{weight}.ttf")
    font.save(target)
    return target


def _take_tabular_figures(font: TTFont) -> None:
    """Map the digits and the signs beside them to the glyphs the font offers as `tnum`."""
    table = font["GSUB"].table
    lookups = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for index in record.Feature.LookupListIndex
    }
    swaps: dict[str, str] = {}
    for index in lookups:
        for part in table.LookupList.Lookup[index].SubTable:
            swaps.update(getattr(part, "ExtSubTable", part).mapping)
    proportional = {code: name for code, name in font.getBestCmap().items() if chr(code) in "0123456789"}
    for cmap in font["cmap"].tables:  # some of them share one mapping
        cmap.cmap.update({code: swaps[name] for code, name in proportional.items() if code in cmap.cmap})


def _to_truetype(font: TTFont) -> None:
    """Replace the cubic outlines by quadratic ones, within `ERROR`."""
    glyphs, order = font.getGlyphSet(), font.getGlyphOrder()
    drawn = {}
    for name in order:
        pen = TTGlyphPen(glyphs)
        glyphs[name].draw(Cu2QuPen(pen, ERROR, reverse_direction=True))
        drawn[name] = pen.glyph()
    font["loca"] = newTable("loca")
    font["glyf"] = glyf = newTable("glyf")
    glyf.glyphOrder, glyf.glyphs = order, drawn
    maxp = font["maxp"]
    maxp.tableVersion = 0x00010000
    maxp.maxZones = 1
    for field in (
        "maxTwilightPoints",
        "maxStorage",
        "maxFunctionDefs",
        "maxInstructionDefs",
        "maxStackElements",
        "maxSizeOfInstructions",
        "maxComponentElements",
        "maxPoints",
        "maxContours",
        "maxCompositePoints",
        "maxCompositeContours",
        "maxComponentDepth",
    ):
        setattr(maxp, field, 0)
    post = font["post"]
    post.formatType, post.extraNames, post.mapping = 2.0, [], {}
    del font["CFF "]
    if "VORG" in font:
        del font["VORG"]
    font.sfntVersion = "\x00\x01\x00\x00"


def write_licence() -> Path:
    """Write the Open Font Licence as the package carries it, with the font's own copyright line."""
    text = LICENCE.read_text(encoding="utf-8").split("License: OFL-1.1\n", 1)[1].split("\n\n", 1)[0]
    body = "\n".join("" if line.strip() == "." else line.removeprefix(" ") for line in text.splitlines())
    font = TTFont(SOURCE / "Inter-Regular.otf")
    head = (
        f"{font['name'].getDebugName(0)} (https://github.com/rsms/inter)\n\n"
        "This Font Software is licensed under the SIL Open Font License, Version 1.1.\n"
        "This license is copied below, and is also available with a FAQ at http://scripts.sil.org/OFL\n\n"
        "The files beside this one are Modified Versions: see subset.py.\n\n"
        "SIL OPEN FONT LICENSE Version 1.1 - 26 February 2007\n\n"
    )
    target = Path(__file__).with_name("Inter-OFL.txt")
    target.write_text(head + body.rstrip() + "\n", encoding="utf-8")
    return target


if __name__ == "__main__":
    for name in WEIGHTS:
        make(name)
    write_licence()
