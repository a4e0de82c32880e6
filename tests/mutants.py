"""Small changes of a program's text, as a slip of the hand would make them."""

from __future__ import annotations

import ast
import tomllib
from copy import copy
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

UNCHANGED = -1
"""As a choice: the file as it is, to see that its tests pass then."""
KEPT = Path(__file__).parent / "cases" / "mutants_that_stay.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One change: the node of the tree, which of its changes, and words for a person."""

    path: str
    node: int
    choice: int
    first: int
    last: int
    text: str
    change: str

    @property
    def lines(self) -> range:
        return range(self.first, self.last + 1)

    @property
    def key(self) -> tuple[str, str, str]:
        """What it is known by when lines have moved."""
        return self.path, self.text, self.change

    def __str__(self) -> str:
        return f"{self.path}:{self.first}: {self.text}\n    {self.change}"


_SWAPS: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt,),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt,),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Add,),
    ast.Div: (ast.Mult,),
    ast.FloorDiv: (ast.Mult,),
    ast.Mod: (ast.Mult,),
    ast.Pow: (ast.Mult,),
    ast.And: (ast.Or,),
    ast.Or: (ast.And,),
}


def _changes(node: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    """Yield what may stand in place of a node, with words for it."""
    yield from _other_operators(node)
    match node:
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield "the two answers exchanged", ast.IfExp(test, orelse, body)
        case ast.Return(value=ast.expr() as value) if not _is_none(value):
            yield "returns None", ast.Return(ast.Constant(None))
        case ast.Break():
            yield "break becomes continue", ast.Continue()
        case ast.Continue():
            yield "continue becomes break", ast.Break()
        case ast.Expr(value=ast.Call(func=ast.Name(id="assert_never"))):
            return  # no value gets there: the types say so
        case ast.Expr(value=ast.Call()):
            yield "call left out", ast.Pass()
        case ast.Constant():
            yield from _other_constants(node)
        case _:
            pass


def _other_operators(node: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    match node:
        case ast.Compare(ops=[op]):
            for other in _SWAPS[type(op)]:
                yield _with_operator(node, op, other)
        case ast.BinOp(op=op) | ast.AugAssign(op=op) | ast.BoolOp(op=op):
            for other in _SWAPS.get(type(op), ()):
                yield _with_operator(node, op, other)
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            yield "not taken away", operand
        case _:
            pass


def _with_operator(node: ast.AST, op: ast.AST, other: type[ast.AST]) -> tuple[str, ast.AST]:
    made = copy(node)
    if isinstance(made, ast.Compare):
        setattr(made, "ops", [other()])  # noqa: B010 - any operator, as the table says
    else:
        setattr(made, "op", other())  # noqa: B010
    return f"{type(op).__name__} becomes {other.__name__}", made


def _other_constants(node: ast.Constant) -> Iterator[tuple[str, ast.AST]]:
    match node.value:
        case bool(truth):
            yield f"{truth} becomes {not truth}", ast.Constant(not truth)
        case int(number):
            yield f"{number} becomes {number + 1}", ast.Constant(number + 1)
        case float(number):
            yield f"{number} becomes {number + 1}", ast.Constant(number + 1)
        case str(text):
            yield f"{text[:40]!r} becomes another text", ast.Constant(f"XX{text}XX")
        case _:
            pass


def _is_none(value: ast.expr) -> bool:
    return isinstance(value, ast.Constant) and value.value is None


def _walk(tree: ast.AST) -> Iterator[tuple[ast.AST, str, int | None, ast.AST]]:
    """Yield each node that does something at run time, with where it hangs in the tree."""
    for field, value in ast.iter_fields(tree):
        if _only_for_readers(tree, field):
            continue
        for place, child in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(child, ast.AST) and not _is_docstring(tree, child):
                yield tree, field, place, child
                yield from _walk(child)


def _only_for_readers(node: ast.AST, field: str) -> bool:
    """Tell what isn't run: annotations, what is imported for types; decorators are left alone."""
    if field in {"annotation", "returns", "decorator_list", "format_spec", "type_params"}:
        return True
    if isinstance(node, ast.If) and isinstance(node.test, ast.Name):
        return node.test.id == "TYPE_CHECKING"
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return node.func.id in {"NewType", "TypeVar", "cast"}
    return False


def _is_docstring(parent: ast.AST, child: ast.AST) -> bool:
    return (
        isinstance(child, ast.Expr)
        and isinstance(child.value, ast.Constant)
        and isinstance(parent, ast.Module | ast.ClassDef | ast.FunctionDef)
    )


def mutants_in(path: str, source: str) -> list[Mutant]:
    """Return every change of a file, in the order of its lines."""
    lines = source.splitlines()
    found = []
    for number, (_, _, _, node) in enumerate(_walk(ast.parse(source))):
        for choice, (words, _) in enumerate(_changes(node)):
            first, last = _lines(node)
            found.append(
                Mutant(
                    path=path,
                    node=number,
                    choice=choice,
                    first=first,
                    last=last,
                    text=lines[first - 1].strip(),
                    change=words,
                )
            )
    return sorted(found, key=lambda mutant: (mutant.first, mutant.node, mutant.choice))


def _lines(node: ast.AST) -> tuple[int, int]:
    assert isinstance(node, ast.stmt | ast.expr)
    return node.lineno, node.end_lineno or node.lineno


def changed(source: str, mutant: Mutant) -> ast.Module:
    """Return the tree of a file with one change made."""
    tree = ast.parse(source)
    if mutant.choice == UNCHANGED:
        return tree
    parent, field, place, node = list(_walk(tree))[mutant.node]
    _, other = list(_changes(node))[mutant.choice]
    if place is None:
        setattr(parent, field, other)
    else:
        getattr(parent, field)[place] = other
    ast.copy_location(other, node)
    return ast.fix_missing_locations(tree)


@cache
def stay() -> dict[tuple[str, str, str], str]:
    """Return the changes that may go unnoticed, each with its reason."""
    if not KEPT.exists():
        return {}
    kept: Sequence[dict[str, str]] = tomllib.loads(KEPT.read_text(encoding="utf-8"))["mutant"]
    return {(each["path"], each["text"], each["change"]): each["why"] for each in kept}
