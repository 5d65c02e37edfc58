"""The danger sign of a space, printed and saved from the register by clicks and read back from the PDF. The words are
the example of 29 CFR 1910.146(c)(2), from memory."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QWidget
from tests.desk.registers.test_registers_screen import pick, press, type_space
from tests.paper.reading_pages import poppler

from lamproom.desk.desk import Desk
from lamproom.desk.registers.danger_sign import DangerSignPart
from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.office.danger_sign import danger_sign_pdf
from lamproom.office.office import Office
from lamproom.office.register_space import register_space
from lamproom.words import Refusal, say

SIGN = "registers.spaces.sign"
ALL_NO = dict.fromkeys(("bad_air_possible", "engulfment_possible", "trapping_shape", "other_hazard"), "no")


def recorded(screen: RegistersScreen, **answers: str) -> None:
    type_space(screen, **answers)
    press(screen, "registers.spaces.register.record")


def part(screen: QWidget) -> DangerSignPart:
    found = screen.findChild(DangerSignPart, SIGN)
    assert found is not None
    return found


@pytest.mark.parametrize(("paper", "size"), [("letter", (792, 612)), ("a4", (842, 595))])
def test_the_sign_is_saved_as_pdf_on_either_paper_and_read_back(
    screen: RegistersScreen, desk: Desk, tmp_path: Path, paper: str, size: tuple[int, int]
) -> None:
    said: list[tuple[str, str]] = []
    desk.said.connect(lambda kind, words: said.append((kind, words)))
    recorded(screen)
    target = tmp_path / "sign.pdf"
    offered: list[str] = []
    part(screen).ask_name = lambda _parent, name: offered.append(name) or str(target)  # type: ignore[func-returns-value]
    pick(screen, f"{SIGN}.paper", paper)
    press(screen, f"{SIGN}.save")
    assert offered == ["danger-sign-wet-well-3.pdf"]
    assert said[-1] == ("done", say("registers.space.sign_saved", name=str(target)))
    page = pypdfium2.PdfDocument(target)[0]
    assert tuple(round(side) for side in page.get_size()) == size and len(pypdfium2.PdfDocument(target)) == 1
    text = " ".join(poppler("pdftotext", target.read_bytes(), tmp_path).split())
    for words in ("DANGER", "PERMIT-REQUIRED CONFINED SPACE", "DO NOT ENTER", "Wet well 3", "S-01"):
        assert words in text, words
    assert "Osprel Bend Waterworks" in text


def test_the_sign_goes_to_the_printer_across_the_sheet(screen: RegistersScreen, desk: Desk, tmp_path: Path) -> None:
    said: list[tuple[str, str]] = []
    desk.said.connect(lambda kind, words: said.append((kind, words)))
    recorded(screen)
    target = tmp_path / "printed.pdf"

    def printer(_parent: QWidget) -> QPrinter:
        made = QPrinter(QPrinter.PrinterMode.HighResolution)
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(target))
        return made

    part(screen).ask_printer = printer
    press(screen, f"{SIGN}.print")
    assert said[-1] == ("done", say("registers.space.sign_printed"))
    width, height = pypdfium2.PdfDocument(target)[0].get_size()
    assert width > height


def test_leaving_the_questions_prints_and_saves_nothing(screen: RegistersScreen, desk: Desk) -> None:
    said: list[tuple[str, str]] = []
    recorded(screen)
    desk.said.connect(lambda kind, words: said.append((kind, words)))
    part(screen).ask_printer = lambda _parent: None
    part(screen).ask_name = lambda _parent, _name: ""
    press(screen, f"{SIGN}.print")
    press(screen, f"{SIGN}.save")
    assert said == []


def test_a_space_that_needs_no_permit_has_no_sign_to_print(screen: RegistersScreen, office: Office) -> None:
    recorded(screen, **ALL_NO)
    assert screen.findChild(QWidget, SIGN) is None
    with pytest.raises(Refusal):
        danger_sign_pdf(office, "S-01")


def test_a_name_too_long_for_the_sign_is_refused_and_never_cut(screen: RegistersScreen, office: Office) -> None:
    recorded(screen)
    registered = office.space("S-01").registered
    assert registered is not None
    register_space(office, "S-01", registered.model_copy(update={"name": "Settling basin " * 30}), by="P-01")
    with pytest.raises(Refusal, match="too long"):
        danger_sign_pdf(office, "S-01")
