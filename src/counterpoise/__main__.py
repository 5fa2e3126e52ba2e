"""`python -m counterpoise`."""

import sys

from counterpoise.cli import main

sys.exit(main())
