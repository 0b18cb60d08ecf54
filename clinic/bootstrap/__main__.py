"""`python3 -m clinic.bootstrap` sets up what the whole suite needs, and stops there."""

import sys

from clinic.bootstrap import environment, system
from clinic.bootstrap.messages import SetupError
from clinic.bootstrap.start import ROOT

try:
    environment.ensure(ROOT, environment.TESTING)
    system.provide_for_testing()
except SetupError as problem:
    sys.exit(str(problem))
