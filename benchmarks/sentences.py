"""Every sentence template of the package, read from its source for proof-reading.

Whatever is written in the code and can reach a person, in the order in which it stands
there. In braces stands what is put in: ``{the piece}`` a name with its article,
``{length}`` a measured length, ``{one|two}`` either of two wordings, and else the name
that the code has for it. Left out are docstrings, keys, what is compared or searched for,
single words in small letters, and messages of errors of Python's own, which are our bugs;
but where answers and lengths are read, a ValueError is told to whoever wrote them.
"""

from __future__ import annotations

import ast
import builtins
import re
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from arrange.data.kinds import names

PACKAGE = Path(__file__).parent.parent / "arrange"
# Nothing in these is said to a person: shapes, the model, keys of the files for machines.
RECORDS = ("output/records.py", "output/sizes.py", "output/rooms.py", "output/fields.py")
SILENT = ("geometry", "solver", *RECORDS)
LENGTHS = ("measured", "length", "short_by", "say", "said")
# Their arguments are patterns, names or keys of the program's own.
UNSAID = frozenset(
    (
        *("compile", "fullmatch", "match", "search", "sub", "split", "partition", "rpartition"),
        *("removesuffix", "removeprefix", "startswith", "endswith", "strip", "replace", "get"),
        *("literal", "getLogger", "getattr", "debug", "TypeVar", "NewType", "import_module"),
        *("Argument", "argument"),
    )
)
SILENT_NODES = (ast.Compare, ast.MatchValue, ast.Import, ast.ImportFrom, ast.arg)
BUGS = frozenset(
    name
    for name, kind in vars(builtins).items()
    if isinstance(kind, type) and issubclass(kind, BaseException)
)
READERS = ("begin/", "data/colour.py", "data/lengths.py")
IDENTIFIER = re.compile(r"[^A-Z\s]\S*|[A-Z]|[A-Z]\S*[A-Z_\d.]\S*")
PUT_IN = re.compile(r"\{[^{}|]*\}")


def sentences(path: Path) -> list[str]:
    """The templates of one module in order, each once."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    if path.is_relative_to(PACKAGE) and path.relative_to(PACKAGE).as_posix().startswith(READERS):
        _let_slips_be_heard(tree)
    known = names()
    found = (" ".join(text.split()) for text in _said(tree))
    return [text for text in dict.fromkeys(found) if _is_sentence(text) and text not in known]


def _let_slips_be_heard(tree: ast.AST) -> None:
    """No bug of ours any more: what is raised where a slip of the person's is told."""
    for node in ast.walk(tree):
        match node:
            case ast.Raise(exc=ast.Call(func=ast.Name(id="ValueError") as name)):
                name.id = "Slip"


def page() -> str:
    """All of them, a heading a file."""
    parts = []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = path.relative_to(PACKAGE).as_posix()
        told = [] if name.startswith(SILENT) else sentences(path)
        if told:
            rows = "\n".join(f"- {text}" for text in map(_marked, told))
            parts.append(f"## `arrange/{name}`\n\n{rows}\n")
    return "\n".join(parts)


def _marked(text: str) -> str:
    """Text in which nothing is taken for a mark of the page's own."""
    return re.sub(r"([\\`*_<>\[\]|#])", r"\\\1", text)


def _is_sentence(text: str) -> bool:
    """Whether it is more than an identifier, a file's name, a number or marks."""
    bare = PUT_IN.sub("", text)
    pattern = "(?:" in text or "\\d" in text or "(?P" in text
    word = re.search(r"[^\W\d_]{2}", bare)
    return bool(word) and not pattern and not IDENTIFIER.fullmatch(PUT_IN.sub("x", text))


def _said(node: ast.AST) -> Iterator[str]:
    """The templates at and below a node."""
    if _is_text(node):
        yield _template(node)
        yield from chain.from_iterable(_said(inner) for inner in _put_in(node))
        return
    for child in _heard(node):
        yield from _said(child)


def _heard(node: ast.AST) -> Iterator[ast.AST]:
    """What stands below a node, without what nobody is told."""
    if _is_silent(node):
        return
    match node:
        case ast.Dict(values=values):
            yield from values
        case ast.Subscript(value=value):
            yield value
        case ast.AnnAssign(value=value):
            yield from [value] if value else ()
        case ast.Call(func=func, args=args, keywords=keywords):
            yield from () if _called(func) in UNSAID else (func, *args)
            yield from (k.value for k in keywords)
        case ast.FunctionDef(args=args, body=body, decorator_list=decorators):
            yield from (*decorators, args, *body)
        case _:
            yield from ast.iter_child_nodes(node)


def _is_silent(node: ast.AST) -> bool:
    """Docstrings, comparisons, imports, names like __all__, and errors that are our bugs."""
    match node:
        case ast.Expr(value=ast.Constant()):
            return True
        case ast.Assign(targets=[ast.Name(id=name)]):
            return name.startswith("__")
        case ast.Raise(exc=ast.Call(func=ast.Name(id=name))):
            return name in BUGS
        case _:
            return isinstance(node, SILENT_NODES)


def _is_text(node: ast.AST) -> bool:
    """A constant text, one with something put in, or a sum of such."""
    match node:
        case ast.Constant(value=str()) | ast.JoinedStr():
            return True
        case ast.BinOp(op=ast.Add(), left=left, right=right):
            return _is_text(left) or _is_text(right)
        case _:
            return False


def _put_in(node: ast.AST) -> Iterator[ast.AST]:
    """The expressions in a text that may hold texts of their own."""
    match node:
        case ast.JoinedStr(values=values):
            for part in values:
                if isinstance(part, ast.FormattedValue):
                    yield from [part.value] if not _either(part.value) else _put_in(part.value)
        case ast.BinOp(left=left, right=right):
            for side in (left, right):
                yield from _put_in(side) if _is_text(side) or _either(side) else (side,)
        case ast.IfExp(body=body, orelse=orelse):
            yield from chain(_put_in(body), _put_in(orelse))


def _template(node: ast.AST) -> str:
    """A text as it is listed."""
    match node:
        case ast.Constant(value=str(text)):
            return text
        case ast.JoinedStr(values=values):
            return "".join(map(_template, values))
        case ast.FormattedValue(value=value):
            return _template(value) if _is_text(value) or _either(value) else f"{{{_name(value)}}}"
        case ast.BinOp(op=ast.Add(), left=left, right=right):
            return _template(left) + _template(right)
        case ast.IfExp() if _either(node):
            return f"{{{_branch(node.body)}|{_branch(node.orelse)}}}"
        case _:
            return f"{{{_name(node)}}}"


def _branch(node: ast.AST) -> str:
    """One of two wordings; braces inside braces are round."""
    return _template(node).replace("{", "(").replace("}", ")")


def _either(node: ast.AST) -> bool:
    """Whether one of two wordings is put in."""
    return isinstance(node, ast.IfExp) and (
        _is_text(node.body) or _is_text(node.orelse) or _either(node.orelse)
    )


def _called(func: ast.AST) -> str:
    match func:
        case ast.Name(id=name) | ast.Attribute(attr=name):
            return name
        case _:
            return ""


def _name(node: ast.AST) -> str:
    """What the code calls that which is put in."""
    match node:
        case ast.Name(id=name):
            found = name
        case ast.Attribute(value=value, attr="name" | "model" | "value"):
            found = _name(value)
        case ast.Attribute(attr=name):
            found = name
        case ast.Call():
            found = _name_of_call(node)
        case ast.GeneratorExp(elt=inner) | ast.ListComp(elt=inner):
            found = re.sub(r"[{}]", "", _template(inner))
        case ast.BoolOp(values=[inner, *_]) | ast.BinOp(left=inner) | ast.IfExp(body=inner):
            found = _name(inner)
        case ast.Subscript(value=inner) | ast.Starred(value=inner):
            found = _name(inner)
        case _:
            found = ast.unparse(node)
    return found


def _name_of_call(node: ast.Call) -> str:
    """A length, a name with its article, or what the function or its argument is called."""
    called = _called(node.func)
    if called == "the" and node.args:
        return f"{'The' if node.keywords else 'the'} {_name(node.args[0])}"
    if called in LENGTHS:
        return "length"
    if node.args and called in ("join", "str", "sorted", "listed", "tuple", "list"):
        return _name(node.args[0])
    if isinstance(node.func, ast.Attribute) and called in ("get", "capitalize", "lower"):
        return _name(node.func.value)
    return "number" if called == "len" else called.strip("_")
