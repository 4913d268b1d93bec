"""Nothing imports upwards, not even for types alone; and only rules know a rule by its id."""

import ast
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path

import pytest

from arrange.data.sources import ids
from arrange.rules import RULE_IDS

pytestmark = pytest.mark.fast

PACKAGE = Path(__file__).parent.parent / "arrange"
# From the bottom. What stands together on one line is side by side: neither may use the other.
LAYERS = (
    {"errors", "budget"},
    {"data"},
    {"geometry"},
    {"rules"},
    {"scenario"},
    {"scoring"},
    {"judge", "different"},
    {"solver"},
    {"suggesting"},
    {"whatif"},
    {"words"},
    {"shop", "begin"},
    {"draw", "output"},
    {"comparing"},
    {"__init__"},  # the public door, which the command line uses as anybody does
    {"cli"},
    {"__main__"},
)
TELLING = (ast.Constant, ast.Import, ast.ImportFrom)
LEVEL = {name: i for i, layer in enumerate(LAYERS) for name in layer}


def place(path):
    """The folder or file of the package that a file belongs to."""
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


@cache
def content(path):
    """The modules of ours that a file imports, with lines; its strings; and names given twice.

    Each file is read once, for all that is asked of it.
    """
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(telling(tree))
    return list(imports(nodes)), strings(nodes), given_twice(tree)


def telling(tree):
    """The constants and imports in a tree, wherever they are; faster than a walk of all nodes."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, TELLING):
            yield node
            continue
        for value in vars(node).values():
            if isinstance(value, list):
                waiting += [one for one in value if isinstance(one, ast.AST)]
            elif isinstance(value, ast.AST) and not isinstance(value, ast.Name | ast.expr_context):
                waiting.append(value)


def imports(nodes):
    """Modules of ours imported there, each with its folder and the line."""
    for node in nodes:
        if isinstance(node, ast.ImportFrom) and node.module:
            found = [node.module]
            if node.module == "arrange":
                found = [f"arrange.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            found = [alias.name for alias in node.names]
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            # import_module("arrange.x") and the like are imports too.
            found = [node.value] if node.value.startswith("arrange.") else []
        else:
            continue
        for name in found:
            parts = name.split(".")
            if parts[0] == "arrange":
                yield (parts[1] if len(parts) > 1 else "__init__"), name, node.lineno


def strings(nodes):
    """All texts that are written out there."""
    found = (n.value for n in nodes if isinstance(n, ast.Constant))
    return {value for value in found if isinstance(value, str)}


def given_twice(tree):
    """Names that a module gives more than once at its top: constants, functions, classes."""
    names = Counter()
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names[node.name] += 1
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            found = [n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name)]
            names.update(found)
    return {name for name, times in names.items() if times > 1 and name != "_"}


FILES = sorted(PACKAGE.rglob("*.py"))


def test_every_file_has_its_layer():
    assert {place(p) for p in FILES} == set(LEVEL)


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_a_file_imports_only_what_is_below_it(path):
    """Or beside it in the same folder."""
    own = place(path)
    wrong = [
        f"line {line}: {name}"
        for other, name, line in content(path)[0]
        if other in LEVEL and other != own and LEVEL[other] >= LEVEL[own]
    ]
    assert wrong == []


def test_no_two_modules_import_one_another():
    """However many stand between them."""
    graph = defaultdict(set)
    for path in FILES:
        module = ".".join(("arrange", *path.relative_to(PACKAGE).with_suffix("").parts))
        graph[module.removesuffix(".__init__")] |= {name for _, name, _ in content(path)[0]}
    done, on_way = set(), []

    def visit(module):
        assert module not in on_way, " -> ".join([*on_way[on_way.index(module) :], module])
        if module in done:
            return
        on_way.append(module)
        for other in sorted(graph.get(module, ())):
            if other in graph and other != module:
                visit(other)
        done.add(on_way.pop())

    for module in sorted(graph):
        if module not in ("arrange", "arrange.__main__"):
            visit(module)
    assert len(done) > 50


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_a_name_means_one_thing_in_its_module(path):
    """A second value of a constant would hold for what stands above it, too."""
    assert not content(path)[2]


def test_a_name_given_twice_is_noticed():
    assert given_twice(ast.parse("MOST = 6\nA, B = 1, 2\ndef f(): MOST = 1\nMOST = 2")) == {"MOST"}
    assert given_twice(ast.parse("A, B = 1, 2\ndef f(): pass\ndef f(): pass")) == {"f"}


# What a rule says of itself, it says in its own file. How a word of the feel weighs is a table.
NAMING = {"scoring.py"}
# A rule of one word has the name of what it is
# about, and a few have that of the source they rest on.
UNMISTAKABLE = {rule for rule in RULE_IDS if "-" in rule} - ids()


@pytest.mark.parametrize(
    "path",
    [p for p in FILES if place(p) != "rules"],
    ids=lambda p: p.relative_to(PACKAGE).as_posix(),
)
def test_no_rule_is_known_by_its_id_outside_the_rules(path):
    """What another module needs to know of a rule, the rule declares."""
    rules = UNMISTAKABLE & content(path)[1]
    assert bool(rules) == (path.relative_to(PACKAGE).as_posix() in NAMING), rules


def test_a_rule_that_is_named_is_noticed():
    line = ast.parse('off = rule.id == "door-floor"')
    assert UNMISTAKABLE & strings(telling(line)) == {"door-floor"}
    assert not UNMISTAKABLE & strings(telling(ast.parse("off = rule.facing")))
    assert len(UNMISTAKABLE) > 20
