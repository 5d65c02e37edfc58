"""Opening a site's record: its folder, the disk it lies on, its file."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

from lamproom.record.durable import sync_folder
from lamproom.record.refusals import CannotOpen, OnNetwork
from lamproom.record.sqlite import SqliteJournal

SITE_FILE = "site.lamproom"

_REMOTE = frozenset(
    (
        "nfs nfs3 nfs4 cifs smb smb2 smb3 smbfs ncpfs afs coda 9p ceph glusterfs lustre beegfs gpfs davfs webdav afpfs "
        "vboxsf vmhgfs prl_fs fuse.sshfs fuse.rclone fuse.glusterfs fuse.ceph fuse.s3fs fuse.davfs fuse.davfs2 "
        "fuse.smbnetfs fuse.gvfsd-fuse fuse.vmhgfs-fuse fuse.google-drive-ocamlfuse fuse.onedriver"
    ).split()
)
"""Types of file systems whose locks or syncs other machines do not share; encrypted local disks are absent."""

_DRIVE_REMOTE = 4  # DRIVE_REMOTE of GetDriveTypeW, winbase.h


def open_journal(folder: Path) -> SqliteJournal:
    """The journal of the site in ``folder``, made with its folder when it is not there. A Refusal says why not."""
    folder = folder.absolute()
    refuse_network(folder)
    _make(folder)
    return SqliteJournal(folder / SITE_FILE)


def refuse_network(folder: Path) -> None:
    """OnNetwork when the folder lies on another machine, as far as this system tells."""
    mounts = Path("/proc/mounts")
    type = is_remote(folder.resolve(), mounts.read_text("utf-8", "surrogateescape")) if mounts.exists() else None
    type = type or _windows_share(folder)
    if type:
        raise OnNetwork(folder, type)


def is_remote(path: Path, mounts: str) -> str | None:
    """The type of the network file system that ``path`` lies on, by the text of /proc/mounts (proc(5)); None if local.

    The longest mount point above the path counts; of two on the same place the later, which hides the earlier.
    """
    best, kind = -1, ""
    for line in mounts.splitlines():
        fields = line.split(" ")
        if len(fields) < 3:
            continue
        point = Path(_unescaped(fields[1]))
        if (path == point or point in path.parents) and len(point.parts) >= best:
            best, kind = len(point.parts), fields[2]
    return kind if kind.lower() in _REMOTE else None


def _unescaped(field: str) -> str:
    """Space, tab, newline and backslash stand in /proc/mounts as three octal digits."""
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), field)


def _windows_share(folder: Path) -> str | None:
    if folder.drive.startswith("\\\\"):
        return "SMB"
    if sys.platform == "win32":  # pragma: no cover
        import ctypes

        if ctypes.windll.kernel32.GetDriveTypeW(folder.anchor) == _DRIVE_REMOTE:
            return "SMB"
    return None


def _make(folder: Path) -> None:
    try:
        missing = [f for f in (folder, *folder.parents) if not f.exists()]
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        for made in missing:
            sync_folder(made.parent)
    except OSError as error:
        raise CannotOpen(folder) from error
    if not os.access(folder, os.R_OK | os.X_OK):
        raise CannotOpen(folder)
