"""Change the logic of a package in one place, and see whether some test of it notices.

A comparison, an operation, a number, a word, a condition or what is returned is changed in a
function; the tests of the package that call the function are run (see `mutation_bench`) until one
fails. A sample is drawn with a seed, so that it can be drawn again, and another one by another::

    python tests/mutate_logic.py core 120 1
    python tests/mutate_logic.py carbonate 120 2

The exit status is 1 when fewer than nine of ten are noticed.

mutmut and cosmic-ray do the same from outside. Here relations are built by decorators that read
the code of a body, which leaves no place for mutmut's trampolines; and a fresh process for each
change, as cosmic-ray takes, costs ten times as much as a fork.
"""

from __future__ import annotations

import ast
import copy
import random
import sys
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from types import CodeType
from typing import TYPE_CHECKING

import mutation_bench
from mutate_coefficients import our_functions, replace_code
from mutation_bench import ROOT, TESTS, Bench

from reefchem.core.record import calculations, records

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import FunctionType

PACKAGES: dict[str, tuple[list[str], list[str]]] = {
    "core": (
        ["core/*.py"],
        ["core", "tank/test_log.py", "test_imports.py", "test_published.py"],
    ),
    "carbonate": (
        ["carbonate/system.py", "carbonate/solver.py", "carbonate/state.py"],
        ["carbonate"],
    ),
    "seawater": (["seawater/*.py"], ["seawater", "test_published.py", "test_examples.py"]),
    "conversion": (["conversion/*.py"], ["conversion", "test_published.py", "test_examples.py"]),
    "dosing": (["dosing/*.py"], ["dosing", "test_published.py", "test_examples.py"]),
    "tank": (
        ["tank/*.py", "tank/planning/*.py"],
        ["tank", "test_published.py", "test_examples.py"],
    ),
    "uncertainty": (
        ["uncertainty/*.py"],
        [
            "test_uncertainty.py",
            "test_uncertainty_left_out.py",
            "test_uncertainty_parts.py",
            "test_uncertainty_of_plans.py",
            "test_years_ahead.py",
            "test_nitrate_choices.py",
        ],
    ),
}
"""What is changed, and whose tests are run."""

ENOUGH = 0.9

OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Div, ast.Mod: ast.Div, ast.Pow: ast.Mult,
    ast.And: ast.Or, ast.Or: ast.And,
    ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
}  # fmt: skip


@dataclass(frozen=True)
class Change:
    """One change of one function: a piece of its text and what stands there instead."""

    path: Path
    start: int
    end: int
    old: str
    new: str
    line: int
    code: CodeType = field(compare=False, repr=False)
    default: str = ""
    """The argument whose default is changed, or nothing."""

    def __str__(self) -> str:
        place = f"{self.path.relative_to(ROOT)}:{self.line} {self.code.co_qualname}"
        return f"{place}: {' '.join(self.old.split())} -> {self.new}"

    def apply(self) -> None:
        """Make the change. It is not undone."""
        text = self.path.read_bytes()
        lines = b"\n" * text[self.start : self.end].count(b"\n")
        changed = text[: self.start] + self.new.encode() + lines + text[self.end :]
        if self.default:
            replace_default(self.code, self.default, ast.parse(changed))
        else:
            compiled = compile(changed, str(self.path), "exec")
            replace_code(self.code, find_code(compiled, self.code))


def variants(node: ast.AST) -> Iterator[tuple[ast.AST, str]]:
    """Go through what may be changed in a node: the part that goes, and what comes."""
    match node:
        case ast.Compare():
            for index, sign in enumerate(node.ops):
                changed = copy.copy(node)
                changed.ops = [*node.ops[:index], OTHER[type(sign)](), *node.ops[index + 1 :]]
                yield node, f"({ast.unparse(changed)})"
        case ast.BinOp() | ast.BoolOp() if type(node.op) in OTHER:
            changed = copy.copy(node)
            changed.op = OTHER[type(node.op)]()
            yield node, f"({ast.unparse(changed)})"
        case ast.AugAssign() if type(node.op) in OTHER:
            changed = copy.copy(node)
            changed.op = OTHER[type(node.op)]()
            yield node, ast.unparse(changed)
        case ast.UnaryOp(op=ast.Not() | ast.USub() | ast.Invert()):
            yield node, f"({ast.unparse(node.operand)})"
        case ast.Constant(value=bool() as value):
            yield node, repr(not value)
        case ast.Constant(value=int() | float() as value):
            yield node, repr(value + 1)
        case ast.Constant(value=str()):
            yield node, "'XX'"
        case ast.Return(value=ast.expr() as value) if ast.unparse(value) != "None":
            yield value, "None"
        case ast.If() | ast.IfExp() | ast.While():
            yield node.test, f"(not ({ast.unparse(node.test)}))"
        case ast.comprehension():
            for condition in node.ifs:
                yield condition, "True"
        case ast.Continue():
            yield node, "break"
        case ast.Break():
            yield node, "continue"


def nodes(node: ast.AST) -> Iterator[ast.AST]:
    """Go through the nodes of a function that say something.

    Docstrings, messages, annotations, decorators and what only type checkers read say nothing.
    """
    yield node
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list"}:
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not says_nothing(child):
                yield from nodes(child)


def says_nothing(node: ast.AST) -> bool:
    """Return whether a change in a node could not matter, or only to the words of a message."""
    match node:
        case ast.Expr(value=ast.Constant()) | ast.JoinedStr():
            return True
        case ast.Assign(targets=[ast.Name(id="msg" | "TYPE_CHECKING")]):
            return True
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
    return False


def changes(path: Path) -> list[Change]:
    """Return the changes of the functions of a file."""
    text = path.read_bytes()
    starts = [0]
    for row in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(row))
    here = [f.__code__ for f in our_functions() if f.__code__.co_filename == str(path)]
    codes = {(code.co_name, code.co_firstlineno): code for code in here}
    found = []
    for function in outer_functions(ast.parse(text)):
        code = codes.get((function.name, first_line(function)))
        given = {part: name for name, value in defaults(function) for part in ast.walk(value)}
        for node in nodes(function) if code else ():
            for part, new in variants(node):
                start = starts[part.lineno - 1] + part.col_offset
                end = starts[part.end_lineno - 1] + part.end_col_offset
                old, name = text[start:end].decode(), given.get(part, "")
                found.append(Change(path, start, end, old, new, part.lineno, code, name))
    return found


def outer_functions(tree: ast.AST) -> Iterator[ast.FunctionDef]:
    """Go through the functions of a module and the methods of its classes."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef):
            yield node
        elif isinstance(node, ast.ClassDef | ast.If):
            yield from outer_functions(node)


def first_line(function: ast.FunctionDef) -> int:
    """Return the line where the code of a function starts: that of its first decorator."""
    return min([function.lineno, *(d.lineno for d in function.decorator_list)])


def defaults(function: ast.FunctionDef) -> Iterator[tuple[str, ast.expr]]:
    """Go through the arguments of a function that have a default, each with it."""
    names = [*function.args.posonlyargs, *function.args.args]
    values = function.args.defaults
    pairs = [*zip(names[len(names) - len(values) :], values, strict=True)]
    pairs += zip(function.args.kwonlyargs, function.args.kw_defaults, strict=True)
    return ((name.arg, value) for name, value in pairs if value)


def replace_default(code: CodeType, name: str, changed: ast.Module) -> None:
    """Give every function with some code, its boundary and its record another default.

    A default is worked out once, where the function is defined, and is no part of its code.
    """
    place = (code.co_name, code.co_firstlineno)
    (there,) = (f for f in outer_functions(changed) if (f.name, first_line(f)) == place)
    expression = compile(ast.Expression(dict(defaults(there))[name]), "<default>", "eval")
    ours = [f for f in our_functions() if code in {f.__code__, code_within(f)}]
    (kernel,) = (f for f in ours if f.__code__ is code)
    new = eval(expression, kernel.__globals__)  # noqa: S307 - our own text
    for function in ours:
        names = function.__code__.co_varnames[: function.__code__.co_argcount]
        values = function.__defaults__ or ()
        given = dict(zip(names[len(names) - len(values) :], values, strict=True))
        if name in given:
            function.__defaults__ = tuple((given | {name: new}).values())
        elif name in (known := function.__kwdefaults__ or {}):
            known[name] = new
    for record in (records() | calculations()).values():
        if record.kernel.__code__ is code:
            kept = record.defaults if name in record.defaults else record.options
            kept[name] = new


def code_within(function: FunctionType) -> CodeType | None:
    """Return the code of what a boundary is around."""
    return getattr(getattr(function, "__wrapped__", None), "__code__", None)


def find_code(compiled: CodeType, old: CodeType) -> CodeType:
    """Return the code of a function in the compiled text of its module."""
    waiting = [compiled]
    while waiting:
        code = waiting.pop()
        if (code.co_qualname, code.co_firstlineno) == (old.co_qualname, old.co_firstlineno):
            return code
        waiting += [c for c in code.co_consts if isinstance(c, CodeType)]
    raise LookupError(old.co_qualname)


def judge(package: str, size: int, seed: int, bench: Bench) -> int:
    """Print what a sample of changes meets; return the exit status."""
    our_functions()
    paths = sorted(p for pattern in PACKAGES[package][0] for p in (ROOT / "reefchem").glob(pattern))
    every = [change for path in paths for change in changes(path)]
    sample = random.Random(seed).sample(every, min(size, len(every)))  # noqa: S311 - no secret
    noticed = 0
    for change in sorted(sample, key=lambda c: (c.path, c.line)):
        items = bench.reaching([change.code])
        check = bench.noticed_by(change.apply, items)
        noticed += bool(check)
        if not check:
            print(f"survives {len(items)} tests: {change}", flush=True)  # noqa: T201
        elif "-v" in sys.argv:
            print(f"  {change}: {check}", flush=True)  # noqa: T201
    share = noticed / len(sample)
    print(f"{package}: {noticed} of {len(sample)} noticed ({100 * share:.1f} %), ", end="")  # noqa: T201
    print(f"of {len(every)} possible changes, seed {seed}")  # noqa: T201
    return int(share < ENOUGH)


def main(package: str, size: str = "100", seed: str = "1") -> int:
    """Draw a sample of changes of a package and return the exit status."""
    paths = [TESTS / name for name in PACKAGES[package][1]]
    return mutation_bench.run(partial(judge, package, int(size), int(seed)), paths)


if __name__ == "__main__":
    sys.exit(main(*[word for word in sys.argv[1:] if word != "-v"]))
