"""How hard the property tests look: every run alike by default, long and by chance when asked.

PINCHROD_DEPTH=deep tries 2000 examples a law, fresh ones each time; shallow 10, for runs over many mutants;
otherwise 100, always the same.
"""

import os

from hypothesis import HealthCheck, settings

settings.register_profile("quick", max_examples=100, deadline=None, derandomize=True, database=None)
settings.register_profile("shallow", max_examples=10, deadline=None, derandomize=True, database=None)
settings.register_profile(
    "deep", max_examples=2000, deadline=None, derandomize=False, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(os.environ.get("PINCHROD_DEPTH", "quick"))
