"""The places of a module at which one small change can be made, and the module with one of them changed."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
TURNED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.Gt, ast.LtE: ast.GtE, ast.Gt: ast.Lt, ast.GtE: ast.LtE,
}  # fmt: skip
SUMS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.Pow: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
}  # fmt: skip
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any"}
MOST_LETTERS = 60
GUARD = 1e-6  # a constant so small only keeps a sum from nought: a tenth more of it is the same


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """One change: the number of its node in the order of `ast.walk`, and its variant there."""

    node: int
    variant: int
    line: int
    kind: str
    before: str
    after: str


def places(source: str) -> list[Place]:
    """Every change that can be made to a module, in a fixed order."""
    tree = ast.parse(source)
    skipped = _skipped(tree)
    found = []
    for number, node in enumerate(ast.walk(tree)):
        if id(node) in skipped:
            continue
        for variant, (kind, new) in enumerate(_variants(node)):
            before, after = (_short(ast.unparse(one)) for one in (node, new))
            line = getattr(node, "lineno", 0)
            found.append(Place(node=number, variant=variant, line=line, kind=kind, before=before, after=after))
    return found


def mutated(source: str, place: Place) -> str:
    """The module with that change; its comments are gone."""
    tree = ast.parse(source)
    old = list(ast.walk(tree))[place.node]
    _, new = list(_variants(old))[place.variant]
    changed = _Exchange(old, ast.copy_location(new, old)).visit(tree)
    return ast.unparse(ast.fix_missing_locations(changed)) + "\n"


class _Exchange(ast.NodeTransformer):
    """One node for another."""

    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= MOST_LETTERS else f"{line[:MOST_LETTERS]}…"


def _variants(node: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        yield from _of_comparison(node)
    elif isinstance(node, ast.BinOp) and type(node.op) in SUMS and not _is_text(node):
        yield "arithmetic", ast.BinOp(left=node.left, op=SUMS[type(node.op)](), right=node.right)
    elif isinstance(node, ast.BoolOp):
        other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield "boolean", ast.BoolOp(op=other, values=node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub | ast.Invert):
        yield ("sign" if isinstance(node.op, ast.USub) else "boolean"), node.operand
    elif isinstance(node, ast.Constant):
        yield from _of_constant(node)
    elif isinstance(node, ast.Return) and node.value is not None and not _is_none(node.value):
        yield "return", ast.Return(value=ast.Constant(value=None))
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
        swapped = ast.Name(id=CALLS[node.func.id], ctx=ast.Load())
        yield "bound", ast.Call(func=swapped, args=node.args, keywords=node.keywords)


def _of_comparison(node: ast.Compare) -> Iterator[tuple[str, ast.AST]]:
    (op,) = node.ops
    for kind, table in (("boundary", COMPARED), ("comparison", TURNED)):
        if type(op) in table:
            yield kind, ast.Compare(left=node.left, ops=[table[type(op)]()], comparators=node.comparators)


def _of_constant(node: ast.Constant) -> Iterator[tuple[str, ast.AST]]:
    value = node.value
    if isinstance(value, bool):
        yield "boolean", ast.Constant(value=not value)
    elif isinstance(value, int):
        yield "constant", ast.Constant(value=value + 1)
        if value > 0:
            yield "constant", ast.Constant(value=value - 1)
    elif isinstance(value, float) and not 0.0 < abs(value) <= GUARD:
        yield "constant", ast.Constant(value=value * 1.1 if value else 1.0)


def _is_none(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def _is_text(node: ast.BinOp) -> bool:
    """Words put together, where another sign is no change of a number but an error at once."""
    return any(isinstance(x, ast.JoinedStr | ast.List | ast.Tuple) or _is_words(x) for x in (node.left, node.right))


def _is_words(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _skipped(tree: ast.Module) -> set[int]:
    """Nodes in annotations, decorators, imports and names of types: nothing of what the module does."""
    out: set[int] = set()
    for node in ast.walk(tree):
        parts: list[ast.AST] = []
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            parts += node.decorator_list
        if isinstance(node, ast.FunctionDef):
            parts += [node.returns] if node.returns is not None else []
            parts += [arg.annotation for arg in (*node.args.args, *node.args.kwonlyargs) if arg.annotation is not None]
        if isinstance(node, ast.AnnAssign):
            parts.append(node.annotation)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "field":
            parts += [keyword.value for keyword in node.keywords if keyword.arg in ("metadata", "repr", "compare")]
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            parts.append(node)
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Subscript):
            parts += [node.value] if "Literal" in ast.unparse(node.value)[:8] else []
        if isinstance(node, ast.keyword) and node.arg == "strict":
            parts.append(node.value)
        out |= {id(inner) for part in parts for inner in ast.walk(part)}
    return out
