"""Which tests of a folder run which lines of a package, and how long each takes: so that a mutant meets first, and
quickest first, the tests that run its line."""

from __future__ import annotations

import ast
import json
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

Ran = dict[str, dict[str, Any]]  # by test: "seconds", and "lines": by module the lines that it ran


@dataclass(kw_only=True)
class Watch:
    """A plugin of pytest that notes, for each test, the lines it ran of the modules under `package`."""

    package: Path
    ran: Ran

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Fixtures count with the test that asked for them first."""
        lines: dict[str, set[int]] = {}
        begun = time.monotonic()
        sys.settrace(self._tracer(lines))
        yield
        sys.settrace(None)
        told = {self._module(file): sorted(seen) for file, seen in lines.items()}
        self.ran[item.nodeid] = {"seconds": round(time.monotonic() - begun, 3), "lines": told}

    def _module(self, file: str) -> str:
        return Path(file).relative_to(self.package).with_suffix("").as_posix()

    def _tracer(self, lines: dict[str, set[int]]) -> Any:
        within = f"{self.package}/"

        def called(frame: FrameType, event: str, arg: object) -> Any:
            file = frame.f_code.co_filename
            if not file.startswith(within):
                return None
            seen = lines.setdefault(file, set())
            seen.add(frame.f_lineno)

            def inside(frame: FrameType, event: str, arg: object) -> Any:
                seen.add(frame.f_lineno)
                return inside

            return inside

        return called


def watch(copy: Path, package: str, out: Path, plain: Sequence[str]) -> int:
    """In a process of its own: the package's folder of tests, with what each test ran into a file of JSON. How it
    ended."""
    one = Watch(package=copy / "reportgen" / package, ran={})
    code = int(pytest.main([*plain, str(copy / "tests" / package)], plugins=[one]))
    out.write_text(json.dumps(one.ran), "utf-8")
    return code


def reaching(ran: Ran, source: str, module: str, line: int, most_s: float) -> list[str]:
    """The tests that run the statement of that line, quickest first, of `most_s` seconds in all (one at least). Of what
    is run at import, such as a constant: those that run anything of the module."""
    wanted = _statement(source, line)
    if wanted is not None:
        tests = [test for test, one in ran.items() if wanted & set(one["lines"].get(module, ()))]
    else:
        tests = [test for test, one in ran.items() if module in one["lines"]]
    tests.sort(key=lambda test: ran[test]["seconds"])
    out, spent = [], 0.0
    for test in tests:
        spent += ran[test]["seconds"]
        if out and spent > most_s:
            break
        out.append(test)
    return out


def _statement(source: str, line: int) -> set[int] | None:
    """Lines of the innermost statement at a line, without its block; None outside a function's body."""
    tree = ast.parse(source)
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    bodies = [node for function in functions for node in function.body]
    if not any(node.lineno <= line <= (node.end_lineno or 0) for node in bodies):
        return None
    spans = [_span(node) for body in bodies for node in ast.walk(body) if isinstance(node, ast.stmt)]
    return min((span for span in spans if line in span), key=len, default=None)


def _span(node: ast.stmt) -> set[int]:
    """A statement's lines; of one with a block, those above it."""
    block = getattr(node, "body", None)
    last = block[0].lineno - 1 if block else (node.end_lineno or node.lineno)
    return set(range(node.lineno, max(last, node.lineno) + 1))
