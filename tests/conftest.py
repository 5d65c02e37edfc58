"""What every test stands on: no screen, and Hypothesis in three sizes."""

import os

# Before Qt is imported by anyone; a test that wants the real window starts its own display.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from hypothesis import HealthCheck, settings

# No deadline: a machine shared by many makes slow examples, not wrong ones. The quick size draws the same examples
# each time, so that a commit is never refused for a law that it did not touch; the other two look further.
settings.register_profile(
    "quick", max_examples=25, derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("full", max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("night", max_examples=5000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("quick")  # `--hypothesis-profile=full` on the command line is read later and wins
