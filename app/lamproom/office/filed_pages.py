"""The pages of a permit that were filed, and those that can be printed now."""

from __future__ import annotations

from lamproom.office.pages import draft_pdf, file_name, filed_pdf

__all__ = ["draft_pdf", "file_name", "filed_pdf"]
