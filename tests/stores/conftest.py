"""The stores that pass the shared suite: one line each."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from tests.record.signing import Pen

from lamproom.record.journal import Journal
from lamproom.record.memory import MemoryJournal
from lamproom.record.sqlite import SqliteJournal


@pytest.fixture(scope="session")
def pen() -> Pen:
    return Pen()


_STORES: dict[str, Callable[[Path], Journal]] = {
    "memory": lambda folder: MemoryJournal(),
    "sqlite": lambda folder: SqliteJournal(folder / "site.lamproom"),
}


@pytest.fixture(params=list(_STORES))
def journal(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Journal]:
    store = _STORES[request.param](tmp_path)
    yield store
    store.close()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "site.lamproom"


@pytest.fixture
def sqlite(file: Path) -> Iterator[SqliteJournal]:
    store = SqliteJournal(file)
    yield store
    store.close()
