"""The folders of the domain stand on each other one way round: no circle of imports."""

from graphlib import TopologicalSorter
from pathlib import Path

from tests.architecture.sources import ROOT, files, imports


def _place(module: str) -> str:
    """The folder a module lies in; a module at the top of the domain is a place of its own."""
    inner = module.split(".")
    is_folder = (ROOT / Path(*inner)).is_dir()
    return module if is_folder or len(inner) == 2 else ".".join(inner[:-1])


def _stands_on() -> dict[str, set[str]]:
    """Every place of the domain, and the places that it imports."""
    found: dict[str, set[str]] = {}
    for path in files("domain"):
        inner = path.relative_to(ROOT).with_suffix("").parts
        here = _place(".".join(inner if inner[-1] != "__init__" else inner[:-1]))
        others = {_place(i.module) for i in imports(path) if i.module.startswith("domain.")}
        found.setdefault(here, set()).update(others - {here})
    return found


def test_no_folder_of_the_domain_imports_itself_by_way_of_others() -> None:
    stands_on = _stands_on()
    assert "domain.setting_out" in stands_on["domain.takeoff"]
    order = list(TopologicalSorter(stands_on).static_order())  # raises CycleError, with the circle
    assert order.index("domain.coverings") < order.index("domain.setting_out.forms")
    assert order.index("domain.setting_out.forms") < order.index("domain.estimate")
