"""Set up and run, with nothing but a Python and a package index: `python3 -m journal.setup demo|test`.

This file uses the standard library only. It makes `.venv` beside the project, installs the
locked packages with their hashes, and hands over to the installed program.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "requirements.lock"
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
# What the tests use beside Python packages: program to look for, Debian package that brings it.
SYSTEM_PARTS = {
    "chromium": "chromium",
    "espeak-ng": "espeak-ng",
    "flite": "flite",
    "sox": "sox",
    "ffmpeg": "ffmpeg",
    "exiftool": "libimage-exiftool-perl",
    "certutil": "libnss3-tools",
    "redis-server": "redis-server",
    "/usr/lib/postgresql": "postgresql",
    "/usr/share/asterisk/sounds/en_US_f_Allison": "asterisk-core-sounds-en-g722",
}
CHECKS = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy",),
    ("lint-imports",),
    ("pytest", "-n", "auto"),
)


def main(arguments: list[str]) -> int:
    """Install what is missing, then run the demo or the tests; return the exit status."""
    if not arguments or arguments[0] not in {"demo", "test"}:
        print("usage: python3 -m journal.setup demo|test [more words for it]", file=sys.stderr)
        return 2
    if sys.version_info < (3, 11):  # noqa: UP036 - this file runs on whatever Python is there
        print("Mouldbook needs Python 3.11 or newer; run this with a newer python3.", file=sys.stderr)
        return 2
    try:
        install()
        if arguments[0] == "demo":
            return _call("mouldbook", "demo", *arguments[1:])
        install_system_parts()
        return test(arguments[1:])
    except subprocess.CalledProcessError as error:
        print(f"This step failed: {' '.join(map(str, error.cmd))}", file=sys.stderr)
        return 1


def install() -> None:
    """Make the environment and install the locked packages, unless this lock is in already."""
    stamp = VENV / "mouldbook-lock"
    wanted = hashlib.sha256(LOCK.read_bytes() + (ROOT / "pyproject.toml").read_bytes()).hexdigest()
    if stamp.exists() and stamp.read_text() == wanted:
        return
    if not (BIN / "pip").exists():
        try:
            venv.create(VENV, with_pip=True)
        except subprocess.CalledProcessError:
            shutil.rmtree(VENV, ignore_errors=True)
            print("Python's venv is not complete here; on Debian: apt-get install python3-venv", file=sys.stderr)
            raise
    print("Installing the locked packages into .venv (fetches about 600 MB the first time) ...", flush=True)
    pip = [str(BIN / "python"), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*pip, "--require-hashes", "--requirement", str(LOCK)], check=True)
    subprocess.run([*pip, "--no-deps", "--no-build-isolation", "--editable", str(ROOT)], check=True)
    stamp.write_text(wanted)


def install_system_parts() -> None:
    """Install missing programs with the system's package manager where that can be done.

    Where it cannot (no apt-get, or not root), the tests that need one say `skipped` and why.
    """
    missing = [package for part, package in SYSTEM_PARTS.items() if not _has(part)]
    if not missing:
        return
    if shutil.which("apt-get") is None or not hasattr(os, "geteuid") or os.geteuid() != 0:
        print(f"Not installed, so some tests will be skipped: {', '.join(missing)}", flush=True)
        return
    print(f"Installing {', '.join(missing)} ...", flush=True)
    quiet = {"stdout": subprocess.DEVNULL, "env": os.environ | {"DEBIAN_FRONTEND": "noninteractive"}}
    subprocess.run(["apt-get", "update", "-qq"], check=False, **quiet)  # type: ignore[call-overload]
    for package in missing:  # one by one, so that one missing package does not cost the others
        command = ["apt-get", "install", "-qq", "--no-install-recommends", "-y", package]
        done = subprocess.run(command, check=False, **quiet)  # type: ignore[call-overload]
        if done.returncode:
            print(f"Could not install {package}; the tests that need it will be skipped.", flush=True)


def test(more: list[str]) -> int:
    """Run every check in order; the first that fails gives the exit status."""
    for command in CHECKS:
        words = command + tuple(more if command[0] == "pytest" else ())
        print("$ " + " ".join(words), flush=True)
        if status := _call(*words):
            return status
    return 0


def _call(program: str, *words: str) -> int:
    environment = os.environ | {"PATH": f"{BIN}{os.pathsep}{os.environ.get('PATH', '')}"}
    return subprocess.run([str(BIN / program), *words], check=False, cwd=ROOT, env=environment).returncode


def _has(part: str) -> bool:
    return Path(part).exists() if part.startswith("/") else shutil.which(part) is not None


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
