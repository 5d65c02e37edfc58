"""Write the table of coverage anew."""

import sys

from tests.coverage.table import PAGE, page

PAGE.parent.mkdir(parents=True, exist_ok=True)
PAGE.write_text(page(), encoding="utf-8")
sys.stdout.write(f"{PAGE}\n")
