"""Columns side by side where there are more of them than a line has room for."""

from textual.app import App, ComposeResult

from tui.frame.theme import PALETTES, textual_theme
from tui.job.coverings.covering_columns import CoveringColumns
from tui.job.coverings.coverings_compared import ComparedRow

NAMES = ("square butt", "hexagonal", "round", "wavy", "felt")


class Shown(App[None]):
    """The columns alone, and what is clicked on them."""

    def __init__(self) -> None:
        super().__init__()
        for name in PALETTES:
            self.register_theme(textual_theme(name))
        self.theme = "evening"
        self.told: list[tuple[str, int]] = []

    def compose(self) -> ComposeResult:
        columns = CoveringColumns()
        columns.names = NAMES
        columns.groups = ((ComparedRow("Packs", tuple(f"{n} packs" for n in range(5))),),)
        columns.offered = (True, False, False, False, False)
        yield columns

    def on_covering_columns_picked(self, event: CoveringColumns.Picked) -> None:
        self.told.append(("picked", event.column))

    def on_covering_columns_offered(self, event: CoveringColumns.Offered) -> None:
        self.told.append(("offered", event.column))


async def test_what_does_not_fit_beside_the_others_stands_below_and_is_clicked_there() -> None:
    app = Shown()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        strips = app.screen._compositor.render_strips()
        shown = [" ".join(strip.text.split()) for strip in strips]
        assert shown[0] == "1 ○ square butt 2 ○ hexagonal 3 ○ round 4 ○ wavy"
        assert shown[6] == "5 ○ felt"
        assert (shown[8], shown[10]) == ("Packs 4 packs", "Offer in quote e ○ no")
        assert app.query_one(CoveringColumns).size.height == 11
        for at in ((17, 6), (17, 10), (40, 10), (40, 4), (40, 2)):
            await pilot.click(CoveringColumns, offset=at)
    assert app.told == [("picked", 4), ("offered", 4), ("offered", 1), ("picked", 1)]
