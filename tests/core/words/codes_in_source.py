"""Reads from the source which message codes it says, and with which arguments."""

import ast
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

SOURCE = Path(__file__).parents[3]
CODE = re.compile(r"[a-z]+\.[a-z0-9]+(-[a-z0-9]+)*")
WORDS = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Call:
    """A message made in the source; `names` is None where its arguments can not be read off the call."""

    code: str
    names: frozenset[str] | None
    place: str


@dataclass(frozen=True)
class Wrapper:
    """A function that makes a message of what it is given: `before` and `after` go round its first argument.

    `adds` are the arguments it brings itself; None where it does not hand on those it is given.
    """

    before: str = ""
    after: str = ""
    adds: frozenset[str] | None = frozenset()


@dataclass
class Said:
    """What the source says: `texts` are the constants shaped like a code, `calls` the messages made.

    `perhaps` are patterns of codes that may be said as well: a code put together from a variable, or its
    words handed on as a constant in a module that has the function to say them with.
    """

    texts: dict[str, str] = field(default_factory=dict)
    calls: list[Call] = field(default_factory=list)
    perhaps: set[str] = field(default_factory=set)

    def may_say(self, code: str) -> bool:
        """Whether a code is said, or perhaps said, anywhere."""
        return code in self.codes or any(re.fullmatch(pattern, code) for pattern in self.perhaps)

    @property
    def codes(self) -> dict[str, str]:
        """Each code with one place where it is named."""
        return self.texts | {call.code: call.place for call in self.calls}


def said_in(*folders: str) -> Said:
    """What the modules of some source roots say, the sentences themselves left out."""
    trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in _modules(*folders)}
    functions = {_module_name(path): _wrappers(tree.body) for path, tree in trees.items()}
    methods = _methods(trees.values())
    said = Said()
    for path, tree in trees.items():
        known = functions[_module_name(path)] | _imported(tree, functions)
        _read(tree, known, methods, path.relative_to(SOURCE).as_posix(), said)
    return said


def _modules(*folders: str) -> Iterator[Path]:
    for folder in folders:
        for path in sorted((SOURCE / folder).rglob("*.py")):
            if path.parent.name != "sentences":
                yield path


def _module_name(path: Path) -> str:
    return ".".join(path.relative_to(SOURCE).with_suffix("").parts[1:])


def _wrappers(body: list[ast.stmt]) -> dict[str, Wrapper]:
    """The functions among some statements that make messages, such as `message(f"units.{fault}", **args)`."""
    found = {"message": Wrapper()}
    for function in body:
        if isinstance(function, Function):
            for node in ast.walk(function):
                wrapper = _wrapper(function, node)
                if wrapper:
                    found[function.name] = wrapper
    return found


def _wrapper(function: Function, node: ast.AST) -> Wrapper | None:
    if not (isinstance(node, ast.Call) and getattr(node.func, "id", "") == "message" and node.args):
        return None
    code = node.args[0]
    parameters = [
        part.arg for part in (*function.args.posonlyargs, *function.args.args) if part.arg != "self"
    ]
    if not (isinstance(code, ast.JoinedStr) and parameters):
        return None
    texts = ["{}" if _is_name(part, parameters[0]) else getattr(part, "value", "") for part in code.values]
    before, given, after = "".join(map(str, texts)).partition("{}")
    named = [keyword.arg for keyword in node.keywords]
    adds = frozenset(name for name in named if name is not None) if None in named else None
    return Wrapper(before, after, adds) if given else None


def _is_name(part: ast.expr, name: str) -> bool:
    return isinstance(part, ast.FormattedValue) and getattr(part.value, "id", "") == name


def _methods(trees: Iterable[ast.Module]) -> dict[str, Wrapper]:
    """The methods of any class that make messages; of those with one name the last."""
    found: dict[str, Wrapper] = {}
    for tree in trees:
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                found |= _wrappers(node.body)
    return found


def _imported(tree: ast.Module, functions: Mapping[str, Mapping[str, Wrapper]]) -> dict[str, Wrapper]:
    found = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module and node.module in functions:
            for alias in node.names:
                wrapper = functions[node.module].get(alias.name)
                if wrapper is not None:
                    found[alias.asname or alias.name] = wrapper
    return found


def _read(
    tree: ast.Module, functions: Mapping[str, Wrapper], methods: Mapping[str, Wrapper], place: str, said: Said
) -> None:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            _read_text(node.value, functions, f"{place}:{node.lineno}", said)
        if isinstance(node, ast.Call) and node.args:
            is_method = isinstance(node.func, ast.Attribute)
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            wrapper = (methods if is_method else functions).get(name)
            if wrapper:
                said.calls.extend(_calls(node, wrapper, f"{place}:{node.lineno}"))
                said.perhaps |= set(_patterns(node.args[0], wrapper))


def _read_text(text: str, functions: Mapping[str, Wrapper], place: str, said: Said) -> None:
    if CODE.fullmatch(text):
        said.texts[text] = place
    if WORDS.fullmatch(text):
        said.perhaps |= {re.escape(f"{found.before}{text}") for found in functions.values() if found.before}


def _patterns(node: ast.expr, wrapper: Wrapper) -> Iterator[str]:
    """The pattern of a code put together on the spot, as in `message(f"model.wants-{kind}")`."""
    if isinstance(node, ast.JoinedStr):
        parts = (
            re.escape(str(part.value)) if isinstance(part, ast.Constant) else "[a-z0-9-]+"
            for part in node.values
        )
        pattern = re.escape(wrapper.before) + "".join(parts) + re.escape(wrapper.after)
        if re.match(r"[a-z]+\\\.[a-z]", pattern):
            yield pattern


def _calls(node: ast.Call, wrapper: Wrapper, place: str) -> Iterator[Call]:
    named = [keyword.arg for keyword in node.keywords]
    names = None
    if wrapper.adds is not None and None not in named:
        names = wrapper.adds | frozenset(name for name in named if name is not None)
    for text in _choices(node.args[0]):
        code = f"{wrapper.before}{text}{wrapper.after}"
        if CODE.fullmatch(code):
            yield Call(code, names, place)


def _choices(node: ast.expr) -> Iterator[str]:
    """The texts an argument can be: a constant, or either branch of a conditional."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    if isinstance(node, ast.IfExp):
        yield from _choices(node.body)
        yield from _choices(node.orelse)
