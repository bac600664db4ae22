"""The direction of imports between the rooms, and the weight of the quick commands."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ALLOWED = {
    "partsbin/standards": {"partsbin.standards"},
    "partsbin/kinds": {"partsbin.standards", "partsbin.kinds", "partsbin.errors"},
    "partsbin/fit": {"partsbin.standards", "partsbin.kinds", "partsbin.fit", "partsbin.errors"},
    "partsbin/stock": {
        "partsbin.standards",
        "partsbin.kinds",
        "partsbin.stock",
        "partsbin.errors",
        "labels.number",
    },
    "partsbin/workshop": {
        "partsbin.standards",
        "partsbin.kinds",
        "partsbin.fit",
        "partsbin.stock",
        "partsbin.workshop",
        "partsbin.errors",
        "labels",
    },
    "partsbin/bench": {
        "partsbin.standards",
        "partsbin.kinds",
        "partsbin.fit",
        "partsbin.stock",
        "partsbin.workshop",
        "partsbin.bench",
        "partsbin.errors",
        "labels",
    },
    "labels": {"labels"},
}


def imported(module: Path) -> set[str]:
    """Return the modules of ours that a module imports anywhere in it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(module.read_text())):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
    return {name for name in found if name.split(".")[0] in ("partsbin", "labels", "demo_db")}


@pytest.mark.parametrize("room", ALLOWED)
def test_imports_run_one_way(room: str) -> None:
    """A room imports only what stands below it."""
    modules = list((ROOT / room).rglob("*.py"))
    assert modules
    strangers = {
        (module.name, name)
        for module in modules
        for name in imported(module)
        if not any(name == room_ or name.startswith(f"{room_}.") for room_ in ALLOWED[room])
    }
    assert strangers == set()


def test_help_imports_nothing_heavy() -> None:
    """`partsbin --help` reads no library for the record, cameras, printing, plans or the page."""
    code = (
        "import sys\n"
        "from partsbin.cli.main import main\n"
        "main(['--help'], standalone_mode=False)\n"
        "heavy = {'sqlalchemy', 'alembic', 'cv2', 'numpy', 'reportlab', 'PIL', 'pyzbar',"
        " 'zxingcpp', 'barcode', 'segno', 'pypdfium2', 'highspy', 'flask', 'flask_wtf', 'werkzeug',"
        " 'jinja2', 'waitress'} & set(sys.modules)\n"
        "sys.exit(f'heavy: {heavy}' if heavy else 0)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert done.returncode == 0
