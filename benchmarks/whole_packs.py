"""How long whole commands take and how much memory: python benchmarks/whole_packs.py [check|demo|thousand].

Each command is a process of its own, start-up and all; wall and processor seconds and the most memory it
held, as the operating system counts them for the finished process. With no word: check and demo, then the
floor (the PDF writer alone on the demo's own sheets).
"""

import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
DEMO = TOP / "src" / "pinchrod" / "cli" / "saltmarsh_row" / "job.toml"
LAYOUTS = (
    "pair",
    "2 doors",
    "3 drawers",
    "drawer 140 over pair",
    "2 doors over[60] open",
    "(3 drawers) beside door",
    "pair over open over drawer",
    "door beside open beside door",
    "(drawer beside drawer) over 2 pairs",
    "door",
)


def run(words: list[str], folder: Path) -> tuple[float, float, float]:
    """Wall seconds, processor seconds and MB of one command."""
    measure = (
        "import os,resource,subprocess,sys,time\n"
        "start=time.monotonic()\n"
        "done=subprocess.run(sys.argv[1:],stdout=subprocess.DEVNULL)\n"
        "used=resource.getrusage(resource.RUSAGE_CHILDREN)\n"
        "print(time.monotonic()-start,used.ru_utime+used.ru_stime,used.ru_maxrss/1024)\n"
        "sys.exit(done.returncode)\n"
    )
    command = [sys.executable, "-c", measure, sys.executable, "-m", "pinchrod", *words]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=True)
    wall, processor, memory = (float(number) for number in done.stdout.split())
    return wall, processor, memory


def thousand(number: int = 1000) -> str:
    """A job of so many frames, no two of one size."""
    dice = random.Random(7)
    head = 'pinchrod = 1\n[job]\nname = "A thousand frames"\ntimber = "yellow-poplar"\n'
    frames = (
        f'\n[[frame]]\nid = "F{each}"\nwidth = {900 + dice.randrange(6000) / 10}\n'
        f'height = {900 + dice.randrange(11000) / 10}\nlayout = "{LAYOUTS[each % len(LAYOUTS)]}"\n'
        for each in range(number)
    )
    return head + "".join(frames)


def tell(name: str, words: list[str], folder: Path, times: int = 3) -> None:
    """Print the median of so many runs."""
    runs = sorted(run(words, folder) for _ in range(times))
    wall, processor, memory = runs[len(runs) // 2]
    print(f"{name:<28}{wall:8.2f} s wall {processor:8.2f} s processor {memory:7.0f} MB")


def floor() -> None:
    """Print what the PDF writer alone takes on the demo's own sheets, ready made."""
    from pinchrod.job import Source, joined_files, read_job
    from pinchrod.papers import Papers, bound_pack, label_sheets, rod_sheets, write_pdf
    from pinchrod.plan import make_plan

    main = Source(name="job.toml", content=DEMO.read_bytes())
    names = joined_files(main)
    joined = tuple(Source(name=name, content=(DEMO.parent / name).read_bytes()) for name in names)
    plan = make_plan(*read_job(main, joined))
    sheets = (
        *bound_pack(plan.job, plan.shop, plan.rods),
        *rod_sheets(plan.rods, plan.job, plan.shop),
        *label_sheets(plan.rods, plan.job, plan.shop),
    )
    write_pdf(Papers(title="warm", sheets=sheets[:1]))
    start = time.process_time()
    write_pdf(Papers(title="floor", sheets=sheets))
    print(f"the PDF writer alone, {len(sheets)} sheets: {time.process_time() - start:.2f} s processor")


if __name__ == "__main__":
    wanted = sys.argv[1:] or ["check", "demo", "floor"]
    with tempfile.TemporaryDirectory() as name:
        here = Path(name)
        if "check" in wanted:
            tell("check of the demo job", ["check", str(DEMO)], here, times=7)
        if "demo" in wanted:
            tell("plan of the demo job", ["plan", str(DEMO), "--out", "demo"], here)
        if "floor" in wanted:
            floor()
        if "thousand" in wanted:
            (here / "many.toml").write_text(thousand(), encoding="utf-8")
            tell("plan of 1,000 frames", ["plan", "many.toml", "--out", "many"], here, times=1)
            print(*sorted(f"{each.name} {each.stat().st_size}" for each in (here / "many").glob("*.*")))
