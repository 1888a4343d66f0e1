"""What a postcode looks like: all that the first screen needs to know of one."""

import re
from itertools import takewhile

OUTWARD = (
    r"(?:[A-PR-UWYZ][0-9][0-9]?|[A-PR-UWYZ][A-HK-Y][0-9][0-9]?"
    r"|[A-PR-UWYZ][0-9][A-HJKPSTUW]|[A-PR-UWYZ][A-HK-Y][0-9][ABEHMNPRVWXY])"
)
POSTCODE = re.compile(
    rf"(?P<before>.*[ ,]|)(?P<out>{OUTWARD}|GIR) *(?P<inward>[0-9][ABD-HJLNP-UW-Z]{{2}})",
    re.IGNORECASE | re.ASCII,
)
"""BS 7666 2.0: the pattern beside the type PostCodeType of the schema that the Cabinet Office
published, kept by the National Archives on 26 November 2010: read. P as a third letter, as in
N1P, came later: from memory. GIR 0AA is the one that follows no rule."""


def postcode_area(address: str) -> str:
    """The letters that the postcode of an address begins with, such as SY; empty without one."""
    found = (POSTCODE.fullmatch(line.strip()) for line in reversed(address.split("\n")))
    outward = next((match["out"] for match in found if match), "")
    return "".join(takewhile(str.isalpha, outward.upper()))
