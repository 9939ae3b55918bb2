"""How long `buildspec check` takes, as a ratio: of whole processes, medians, on this machine and at this moment.

Run it from the root of the repository, with nothing else going on:

    python tests/benchmarks/check_speed.py [rounds]

A generated spec of 60 circuits on three panels is written into a temporary folder. `buildspec check` on it is set
against `python -c "import yaml"`, the least that any program that reads YAML with that library can take, and, where
they are installed, against yamllint and check-jsonschema on the same file with our schema. The rounds of all
commands are interleaved, so that a busy machine slows them alike. Seconds are not printed: they say more about the
machine than about the program.
"""

from __future__ import annotations

import os
import pathlib
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

import generated  # noqa: E402

ROUNDS = 15
CIRCUITS, PANELS = 60, 3
SEED = 7


def big_spec() -> str:
    """A spec of exactly 60 circuits on three panels."""
    loads = 1
    while True:
        data = generated.spec(SEED, generated.Shape(PANELS, 8, loads, reserves=4))
        sized, _ = generated.checked(data)
        if len(sized.build.circuits) >= CIRCUITS:
            assert len(sized.build.circuits) == CIRCUITS and len(sized.build.panels) == PANELS
            return yaml.safe_dump(data, sort_keys=False, allow_unicode=True)
        loads += CIRCUITS - len(sized.build.circuits)


def commands(spec: pathlib.Path) -> dict[str, list[str]]:
    """Name → command, the yardstick first; only what is installed."""
    found = {
        'python -c "import yaml"': [sys.executable, "-c", "import yaml"],
        "buildspec check": [sys.executable, "-m", "buildspec", "check", str(spec)],
    }
    schema = str(ROOT / "schemas" / "spec.schema.json")
    others = {
        "yamllint": ["yamllint", str(spec)],
        "check-jsonschema": ["check-jsonschema", "--schemafile", schema, str(spec)],
    }
    return found | {name: words for name, words in others.items() if shutil.which(words[0])}


def seconds(words: list[str], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(
        words, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
    )
    return time.perf_counter() - start


def compiled_once(folder: str) -> dict[str, str]:
    """The environment, with Python's compiled files kept in a folder: as installed, and nothing left behind."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": folder}


def measured(runs: dict[str, list[str]], rounds: int, environment: dict[str, str]) -> dict[str, float]:
    """Median of each command [s], the rounds interleaved and in a new order each time."""
    dice = random.Random(1)
    taken: dict[str, list[float]] = {name: [] for name in runs}
    for turn in range(rounds + 1):
        for name in dice.sample(sorted(runs), k=len(runs)):
            took = seconds(runs[name], environment)
            if turn:  # the first round compiles and warms the file cache
                taken[name].append(took)
    return {name: statistics.median(times) for name, times in taken.items()}


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with tempfile.TemporaryDirectory() as folder:
        spec = pathlib.Path(folder, "sixty.build.yaml")
        spec.write_text(big_spec(), encoding="utf-8")
        medians = measured(commands(spec), rounds, compiled_once(folder))
    check = medians.pop("buildspec check")
    print(f"buildspec check, {CIRCUITS} circuits on {PANELS} panels, median of {rounds} whole processes:")
    for name, other in medians.items():
        print(f"  {check / other:.2f} times {name}")


if __name__ == "__main__":
    main()
