"""A file that the user names is read as far as it may go, and never waited for."""

import os
from pathlib import Path

import pytest

from domain.errors import Refused
from storage.users_file import read_users_file


def _read(path: Path) -> bytes:
    return read_users_file("file", path, 3, "prices", str(path))


def test_it_is_read_to_a_byte_more_than_it_may_have(tmp_path: Path) -> None:
    path = tmp_path / "prices.csv"
    path.write_bytes(b"abcdef")
    assert _read(path) == b"abcd"


def test_a_pipe_a_device_and_a_folder_are_no_files(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for path in (pipe, Path(os.devnull), tmp_path):
        with pytest.raises(Refused, match="not a file: name the file of prices"):
            _read(path)


def test_what_cannot_be_read_says_why(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="No such file"):
        _read(tmp_path / "nowhere.csv")
    with pytest.raises(Refused, match="Give the path of a file"):
        _read(Path("a\0b"))
