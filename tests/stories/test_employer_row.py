"""A shift can tell that a person works for somebody else from now on."""

from __future__ import annotations

from pathlib import Path

from tests.stories.lives import in_memory

from lamproom.office import replay


def test_a_row_of_a_shift_changes_the_employer_of_a_person_of_the_register(tmp_path: Path) -> None:
    shift = in_memory(tmp_path)
    replay.set_up(shift)
    replay.live(shift, "07:02:00 | Mara | change employer | person: Teo; employer: Larkin Lining\n")
    assert shift.office.person(shift.person("Teo")).employer == "Larkin Lining"
