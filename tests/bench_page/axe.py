"""The accessibility checker that `.ci/setup test` installs, run in a page of a browser."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from playwright.sync_api import Page

SCRIPT = Path(__file__).parents[2] / ".venv/axe/node_modules/axe-core/axe.min.js"
GRAVE = {"serious", "critical"}


@cache
def _script() -> str:
    if not SCRIPT.is_file():
        raise RuntimeError(f"there is no {SCRIPT}; install it with: bash .ci/setup test")
    return SCRIPT.read_text()


def faults_in(page: Page, rules: Sequence[str] = ()) -> list[str]:
    """Return the serious and critical faults of a page, by all rules or only some of them."""
    # Through the debugger, so that the page's own policy against strange scripts stays on.
    page.evaluate(_script())
    options: dict[str, Any] = {"resultTypes": ["violations"], "selectors": False, "preload": False}
    if rules:
        options["runOnly"] = {"type": "rule", "values": list(rules)}
    found = page.evaluate(f"axe.run(document, {json.dumps(options)})")
    return [
        f"{fault['id']}: {fault['help']}: {node['html']} {node['failureSummary']}"
        for fault in found["violations"]
        if fault["impact"] in GRAVE
        for node in fault["nodes"]
    ]
