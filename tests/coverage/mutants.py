"""A rule taken away, in this process, for as long as a test looks: what it held must then be missed."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from importlib import import_module
from typing import Any

import pytest

from lamproom.permit import events as e
from lamproom.permit import form, state
from lamproom.permit import obstacles as rules
from lamproom.permit.obstacles import isolation

EVENTS = {event.kind: event for event in e.EVENTS}


def without(monkeypatch: pytest.MonkeyPatch, rule: str) -> None:
    """A code bars nothing, an item is not asked, a condition is not reported, an act changes nothing, a part of the
    program does nothing."""
    kind, _, id = rule.partition(":")
    {"code": _code, "item": _item, "condition": _condition, "act": _act, "part": _part}[kind](monkeypatch, id)


def forget() -> None:
    """What was read while a rule was away is read anew: a looser form would be remembered as one that passes."""
    form.read_form.cache_clear()
    form.halved.cache_clear()


def _code(monkeypatch: pytest.MonkeyPatch, id: str) -> None:
    monkeypatch.setitem(rules.STAGES, id, frozenset())


def _item(monkeypatch: pytest.MonkeyPatch, id: str) -> None:
    plain = isolation.asked
    monkeypatch.setattr(isolation, "asked", lambda facts, item: item.id != id and plain(facts, item))


def _condition(monkeypatch: pytest.MonkeyPatch, _id: str) -> None:
    monkeypatch.setattr(isolation, "_conditions", lambda facts: iter(()))
    monkeypatch.setitem(rules.STAGES, "stopped", frozenset())


def _act(monkeypatch: pytest.MonkeyPatch, id: str) -> None:
    changes: dict[Any, Any] = state._CHANGES
    monkeypatch.setitem(changes, EVENTS[id], lambda permit, _event, _happening: permit)


# Parts: module:name, module:name:word (only when it is called with that word first), module:name=True ---------------

NOTHING: tuple[tuple[str, Any], ...] = (
    ("bool", False),
    ("str", ""),
    ("bytes", b""),
    ("list", []),
    ("tuple", ()),
    ("Iterator", ()),
)
"""What a part that does nothing gives back, by what it says that it gives back; None for all else."""


def _part(monkeypatch: pytest.MonkeyPatch, id: str) -> None:
    owner, name, word, given = found(id)
    plain = getattr(owner, name)
    if not callable(plain):
        monkeypatch.setattr(owner, name, type(plain)())
        return
    told = str(inspect.signature(plain).return_annotation)
    nothing = True if given else next((value for start, value in NOTHING if told.startswith(start)), None)
    monkeypatch.setattr(owner, name, _gone(plain, word, iter(()) if told.startswith("Iterator") else nothing))


def _gone(plain: Callable[..., Any], word: str, nothing: Any) -> Callable[..., Any]:
    return lambda *told, **named: nothing if not word or str(told[0]) == word else plain(*told, **named)


def found(id: str) -> tuple[Any, str, str, bool]:
    """Where a part stands: its module or class, its name, the word that it must be called with, and whether it is to
    say yes. Raises AttributeError when there is none."""
    path, _, given = id.partition("=")
    module, path, *word = path.split(":")
    owner: Any = import_module(module)
    *classes, name = path.split(".")
    for one in classes:
        owner = getattr(owner, one)
    getattr(owner, name)
    return owner, name, "".join(word), given == "True"
