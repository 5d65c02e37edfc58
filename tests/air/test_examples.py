"""The examples in the docstrings of the air are true."""

import doctest
import importlib
import pkgutil

import pytest

import lamproom.air

MODULES = [module.name for module in pkgutil.iter_modules(lamproom.air.__path__, "lamproom.air.")]
WITHOUT_FIGURES = {"working", "worst_window", "exposure", "gases", "vapors"}
LISTS = "lamproom.air.working"  # the list of workings has an example of its own for each entry


@pytest.mark.parametrize("name", MODULES)
def test_every_example_gives_what_it_shows(name: str) -> None:
    outcome = doctest.testmod(importlib.import_module(name))
    assert outcome.failed == 0
    assert outcome.attempted > 0 or name.rpartition(".")[2] in WITHOUT_FIGURES or name.startswith(LISTS)
