"""`python -m lamproom`: the command line; without a command it opens the window."""

from __future__ import annotations

import sys

from lamproom.cli import main

if __name__ == "__main__":
    sys.exit(main())
