"""Files that are there wholly or not at all, even after a power cut: written beside, synced, then given their name."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from lamproom.record.refusals import CannotWrite, Exists


@contextmanager
def written_new(target: Path) -> Iterator[Path]:
    """A name beside ``target`` to write a file or a folder at; it becomes ``target`` when the block ends without error.

    Exists when there is something of that name; CannotWrite, with the system's words, when the disk refuses. Nothing
    half written stays behind, except after a kill, then under a name that ends in '.part'.
    """
    if target.exists() or target.is_symlink():
        raise Exists(target)
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        yield part
        _sync_tree(part)
        _take_name(part, target)
        sync_folder(target.parent)
    except OSError as error:
        raise CannotWrite(target, error.strerror or str(error)) from error
    finally:
        _clear(part)


def sync_folder(folder: Path) -> None:
    """Make a new name in ``folder`` last. Windows knows no sync of folders; its file systems log their names."""
    if os.name != "nt":
        _sync(folder)


def _take_name(part: Path, target: Path) -> None:
    """A link fails where something has the name by now; a rename would put an end to it."""
    if part.is_dir():
        os.rename(part, target)  # refuses a folder that holds anything
        return
    try:
        os.link(part, target)
    except FileExistsError as error:
        raise Exists(target) from error
    except OSError:
        os.replace(part, target)  # sticks formatted FAT know no links


def _sync_tree(part: Path) -> None:
    if part.is_dir():
        for inside in sorted(part.rglob("*")):
            if inside.is_file() or os.name != "nt":
                _sync(inside)
    if part.is_file() or os.name != "nt":
        _sync(part)


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDWR if os.name == "nt" else os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _clear(part: Path) -> None:
    if part.is_dir():
        shutil.rmtree(part)
    elif part.exists():
        part.unlink()
