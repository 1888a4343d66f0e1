"""Examples that work as they stand: of each command in its help, and whole survey files."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from domain.setting_out.kinds import RoofForm

EXAMPLES = {
    "": "headlap --version",
    "week": "headlap week --pdf week.pdf",
    "takeoff": "headlap takeoff --example apex > shed.toml\nheadlap takeoff shed.toml",
    "paper": "headlap paper quote 0001 --pdf quote.pdf\nheadlap paper quarter",
    "demo": "headlap demo",
    "backup": "headlap backup --to .",
    "check": "headlap check",
    "restore": "headlap restore",
    "export": "headlap export tables",
    "ledger": "headlap ledger --csv > ledger.csv",
}
"""Lines to type, by command; the first is of the program itself. A book's first job is 0001."""

_SURVEYS = Path(__file__).with_name("surveys")


def survey_example(form: "RoofForm") -> str:
    """A whole survey file of such a roof, to begin one's own from; its sizes are invented."""
    return (_SURVEYS / f"{form}.toml").read_text(encoding="utf-8")


def add_examples(
    parser: argparse.ArgumentParser,
    parts: "argparse._SubParsersAction[argparse.ArgumentParser]",
) -> None:
    """Show the example of each command below its help."""
    for name, command in ("", parser), *parts.choices.items():
        lines = "\n".join(f"  {line}" for line in EXAMPLES[name].splitlines())
        command.formatter_class = argparse.RawDescriptionHelpFormatter
        command.epilog = f"for example:\n{lines}"
    whole = "\n".join(f"  {line}".rstrip() for line in _apex().splitlines())
    takeoff = parts.choices["takeoff"]
    takeoff.epilog = f"{takeoff.epilog}\n\na whole survey file:\n{whole}"


def _apex() -> str:
    return (_SURVEYS / "apex.toml").read_text(encoding="utf-8")
