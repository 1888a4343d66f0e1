"""The folders of the domain and of the interface stand on each other one way round."""

import ast
from graphlib import TopologicalSorter
from pathlib import Path

from tests.architecture.sources import ROOT, files, imports, parsed


def _place(module: str) -> str:
    """The folder a module lies in; a module at the top is a place of its own."""
    inner = module.split(".")
    is_folder = (ROOT / Path(*inner)).is_dir()
    return module if is_folder or len(inner) == 2 else ".".join(inner[:-1])


def _stands_on(top: str) -> dict[str, set[str]]:
    """Every place under a folder, and the places under it that it imports."""
    found: dict[str, set[str]] = {}
    for path in files(top):
        inner = path.relative_to(ROOT).with_suffix("").parts
        here = _place(".".join(inner if inner[-1] != "__init__" else inner[:-1]))
        others = {_place(i.module) for i in imports(path) if i.module.startswith(f"{top}.")}
        found.setdefault(here, set()).update(others - {here})
    return found


def test_no_folder_of_the_domain_imports_itself_by_way_of_others() -> None:
    stands_on = _stands_on("domain")
    assert "domain.setting_out" in stands_on["domain.takeoff"]
    order = list(TopologicalSorter(stands_on).static_order())  # raises CycleError, with the circle
    assert order.index("domain.coverings") < order.index("domain.setting_out.forms")
    assert order.index("domain.setting_out.forms") < order.index("domain.estimate")


def test_no_folder_of_the_interface_imports_itself_by_way_of_others() -> None:
    stands_on = _stands_on("tui")
    assert "tui.job" in stands_on["tui.job.coverings"]
    list(TopologicalSorter(stands_on).static_order())  # raises CycleError, with the circle


def _modules(*folders: str) -> dict[str, set[str]]:
    """Every module of these folders with the modules it imports, those for the type checker too."""
    names = {_name(path): path for path in files(*folders)}
    return {name: _imported(path, set(names)) - {name} for name, path in names.items()}


def _name(path: Path) -> str:
    inner = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(inner[:-1] if inner[-1] == "__init__" else inner)


def _imported(path: Path, ours: set[str]) -> set[str]:
    found = set()
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.ImportFrom) and node.module:
            whole = {f"{node.module}.{name.name}" for name in node.names}
            found |= (whole & ours) or ({node.module} & ours)
    return found


def test_no_module_imports_itself_by_way_of_others_not_even_for_the_type_checker() -> None:
    stands_on = _modules("domain", "storage", "tui", "demo_data")
    assert "tui.frame.screen" in stands_on["tui.week.sending_keys"]
    list(TopologicalSorter(stands_on).static_order())  # raises CycleError, with the circle
