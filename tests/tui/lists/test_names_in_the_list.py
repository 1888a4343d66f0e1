"""A customer's name in the list of jobs: shortened where it can be, never to nothing."""

import pytest

from tui.lists.job_line import name_within


@pytest.mark.parametrize(
    ("name", "width", "seen"),
    [
        ("Mr and Mrs Pascoe", 17, "Mr and Mrs Pascoe"),
        ("Mr and Mrs Pascoe", 15, "Mr & Mrs Pascoe"),
        ("Mr and Mrs Pascoe", 12, "Pascoe"),
        ("Ms Featherstonehaugh", 12, "Featherstonehaugh"),
        ("Harrowmere Bowls Club", 12, "Harrowmere Bowls Club"),
        ("Mr and Mrs", 8, "Mr & Mrs"),
        ("Mr and Mrs", 4, "Mr & Mrs"),
    ],
)
def test_a_name_loses_its_titles_before_its_end(name: str, width: int, seen: str) -> None:
    assert name_within(name, width) == seen
