"""What holds for every test: small matrices solved on one thread, quicker and always alike; the same random inputs."""

from __future__ import annotations

import os

from hypothesis import settings

for _name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(_name, "1")

settings.register_profile("steady", derandomize=True)  # the same inputs in every run
settings.load_profile("steady")
