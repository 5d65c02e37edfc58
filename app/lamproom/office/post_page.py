"""The page that hangs at the portal, printed anew whenever the permit changes."""

from __future__ import annotations

from lamproom.office.pages import posted_pdf

__all__ = ["posted_pdf"]
