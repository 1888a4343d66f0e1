"""What a thing that is done is of: a job or a list, and the pages on which it shows."""

from enum import StrEnum
from typing import TypeAlias

from domain.page_names import PageName


class ListName(StrEnum):
    """What is saved that is of no job."""

    PRICES = "prices"
    STOCK = "stock"
    DETAILS = "your details"
    FORECASTS = "forecasts"
    BOOKS = "books"


Scope: TypeAlias = int | ListName
"""What an action is of: the job of a number, or a list."""

Touched: TypeAlias = PageName | ListName
"""Where something that was done shows."""
