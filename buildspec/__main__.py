"""`python -m buildspec`."""

from __future__ import annotations

import sys

from buildspec.cli import main

sys.exit(main())
